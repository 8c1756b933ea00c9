import {
  type Intent,
  liveMeasures,
  makeViews,
  OPEN_INTENT,
  type Recipe,
  readingInput,
  readyRecipe,
  SRGB,
  stepRunner,
  takeCensus,
  takeSurvey,
} from '@halflight/engine';
import { openCodec, readPicture } from '@halflight/files/node';
import type { Figure } from '../figure.ts';
import { paintedPicture } from '../pictures.ts';

/** Values that a drag passes through. */
const MOVES = 31;

const INTENT: Intent = { ...OPEN_INTENT, mood: { axes: { warmCool: { at: -0.2, tolerance: 0.15 } } } };

/** How long the numbers take to follow a value that is dragged, without an area and with one. */
export async function liveRows(): Promise<Figure[]> {
  const codec = await openCodec();
  const { raster, facts } = await readPicture(await paintedPicture(), { codec });
  codec.close();
  const census = takeCensus(raster);
  const views = makeViews(raster);
  const input = readingInput({ picture: facts, census, views, intent: INTENT });
  const recipeAt = (stops: number, area: boolean): Recipe => ({
    schema: 'halflight/recipe@1',
    steps: [
      { kind: 'warmth', on: true, strength: 1, values: { mired: -15 } },
      {
        kind: 'exposure',
        on: true,
        strength: 1,
        values: { stops },
        ...(area && {
          area: { soften: 0.02, parts: [{ joining: 'add', kind: 'gradient', from: [0, 0.3], to: [0, 1] }] },
        }),
      },
    ],
  });
  const median = (area: boolean): number => {
    const { areas } = readyRecipe(recipeAt(0.5, area), views.close);
    const survey = takeSurvey(views.close, areas);
    const times = Array.from({ length: MOVES }, (_, k) => {
      // The areas stand still while a value is dragged.
      const ready = {
        areas,
        edit: stepRunner(recipeAt(0.02 * (k + 1), area).steps, [null, area ? 0 : null]),
      };
      const start = process.cpuUsage();
      liveMeasures(input, survey, ready, SRGB);
      const { user, system } = process.cpuUsage(start);
      return (user + system) / 1000;
    });
    return times.sort((a, b) => a - b)[MOVES >> 1];
  };
  return [
    {
      what: 'numbers that follow a drag, 24 MP, median of processor time',
      value: median(false),
      unit: 'ms',
      goal: 100,
    },
    { what: '  where a step has an area', value: median(true), unit: 'ms', goal: 100 },
  ];
}
