import {
  examine,
  makeViews,
  OPEN_INTENT,
  READINGS,
  type ReadingInput,
  readingInput,
  takeCensus,
} from '@halflight/engine';
import { openCodec, readPicture } from '@halflight/files/node';
import type { Figure } from '../figure.ts';
import { noisyPicture, paintedPicture } from '../pictures.ts';
import { race } from '../time.ts';
import { scikitSlic } from './slic.ts';

/** The steps of the engine on one core, and a second look with another intent: a painting, then pure noise. */
export async function engineRows(): Promise<Figure[]> {
  return [
    ...(await rowsOf('a painting', await paintedPicture())),
    ...(await rowsOf('noise', await noisyPicture())),
  ];
}

async function rowsOf(title: string, path: string): Promise<Figure[]> {
  const codec = await openCodec();
  const { raster, facts } = await readPicture(path, { codec });
  codec.close();
  const steps = await race(5, { census: () => takeCensus(raster), views: () => makeViews(raster) });
  const input = readingInput({
    picture: facts,
    census: takeCensus(raster),
    views: makeViews(raster),
    intent: OPEN_INTENT,
  });
  const examination = examine(input);
  const changed: ReadingInput = {
    ...input,
    intent: { ...OPEN_INTENT, hue: { families: [{ hue: 250, width: 80 }] } },
  };
  const looks = await race(3, {
    first: () => examine(anew(input)),
    second: () => examine(changed, [], { input, examination }),
  });
  const kinds = await race(
    3,
    Object.fromEntries(READINGS.map((kind) => [kind.title, () => kind.read(anew(input))])),
  );
  const slic = scikitSlic(input.views.middle);
  const perPixel = (ms: number): number => (1e6 * ms) / (raster.width * raster.height);
  return [
    { what: `census of ${title}, one core`, value: perPixel(steps.census), unit: 'ns a pixel', goal: 12 },
    { what: '  views, one core', value: perPixel(steps.views), unit: 'ns a pixel' },
    { what: '  all readings and findings', value: looks.first, unit: 'ms' },
    ...Object.entries(kinds).map(
      ([name, value]): Figure => ({
        what: `    ${name}`,
        value,
        unit: 'ms',
        ...(name === 'Light' && slic
          ? { reference: { what: 'SLIC of scikit-image alone', value: slic } }
          : {}),
      }),
    ),
    { what: '  second look, another hue plan', value: looks.second, unit: 'ms', goal: 50 },
  ];
}

/** The same input with views that no reading has met: some keep by view what they found in it. */
function anew(input: ReadingInput): ReadingInput {
  const views = Object.fromEntries(Object.entries(input.views).map(([name, view]) => [name, { ...view }]));
  return { ...input, views: views as unknown as ReadingInput['views'] };
}
