import {
  examine,
  type Intent,
  makeViews,
  OPEN_INTENT,
  type ProposalRequest,
  propose,
  type Raster,
  readingInput,
  runToEnd,
  searchRecipe,
  takeCensus,
} from '@halflight/engine';
import { openCodec, readPicture } from '@halflight/files/node';
import type { Figure } from '../figure.ts';
import { paintedPicture } from '../pictures.ts';
import { planted } from '../proposal/planted.ts';
import { race } from '../time.ts';

/** A decided mood and plan that the demo painting does not meet: several steps are looked for. */
const INTENT: Intent = {
  ...OPEN_INTENT,
  mood: { axes: { warmCool: { at: -0.2, tolerance: 0.15 }, key: { at: 45, tolerance: 5 } } },
  hue: { families: [{ hue: 260, width: 50 }], accent: { hue: 60, width: 40 } },
};

/** The proposal: its time on a painting, and its search against a random one. */
export async function proposalRows(): Promise<Figure[]> {
  const codec = await openCodec();
  const { raster } = await readPicture(await paintedPicture(), { codec });
  codec.close();
  const request = requestFor(raster, INTENT);
  const best = await race(3, {
    search: () => runToEnd(searchRecipe(request)),
    whole: () => runToEnd(propose(request)),
  });
  const { worse, pictures, tries } = againstRandom();
  return [
    { what: 'proposal on the census, 24 MP', value: best.search, unit: 'ms', goal: 1000 },
    { what: '  with verifying by every reading', value: best.whole, unit: 'ms', goal: 1000 },
    {
      what: `  of ${pictures} planted pictures, random search with 100 × the tries (${tries} a picture) finds better on`,
      value: worse,
      unit: 'pictures',
      goal: 1,
    },
  ];
}

function requestFor(raster: Raster, intent: Intent): ProposalRequest {
  const input = readingInput({
    picture: {
      name: 'bench',
      width: raster.width,
      height: raster.height,
      depth: raster.depth,
      profile: 'sRGB',
      tagged: true,
    },
    census: takeCensus(raster),
    views: makeViews(raster),
    intent,
  });
  return { input, examination: examine(input) };
}

/** Costs that differ by less than a thousandth are equal: the search stops there. */
const EQUAL = 1.001;

function againstRandom(): { worse: number; pictures: number; tries: number } {
  let worse = 0;
  let tries = 0;
  const pictures = planted();
  for (const { name, raster, intent } of pictures) {
    const { ways, cost, found, evaluations } = runToEnd(searchRecipe(requestFor(raster, intent)));
    // Linear congruential generator of Numerical Recipes (2nd edition, 1992).
    let seed = 1;
    const random = (): number => {
      seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
      return seed / 2 ** 32;
    };
    const x = new Float64Array(ways.length);
    let best = cost(x);
    const start = best;
    for (let k = 0; k < 100 * evaluations; k++) {
      for (let i = 0; i < x.length; i++)
        x[i] = random() < 0.5 ? 0 : ways[i].both ? 2 * random() - 1 : random();
      best = Math.min(best, cost(x));
    }
    if (found.cost > EQUAL * best) worse++;
    tries += Math.round((100 * evaluations) / pictures.length);
    console.error(
      `  ${name}: ${start.toFixed(3)} to ${found.cost.toFixed(4)}, random ${best.toFixed(4)}, ${evaluations} tries of ${ways.length} numbers`,
    );
  }
  return { worse, pictures: pictures.length, tries };
}
