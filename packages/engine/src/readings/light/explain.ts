import { wayOfPlace } from './shadeColours.ts';
import { type ExplainedPair, type Explanation, LABELS, type LightResult } from './types.ts';

/** Pairs shown of a place. */
const SHOWN = 8;
const WHY_NOT = [
  '',
  'Too dark or too bright here to tell a colour of light.',
  'Taken for sky, so its light is not judged.',
  'Taken for something that glows by itself, so its light is not judged.',
  'You left this area out.',
];

/**
 * What the reading saw at a place: its surface, the pairs that spoke about it and why it is flagged or not.
 *
 * @param x share of the width, 0…1
 * @param y share of the height, 0…1
 */
export function explainPlace(result: LightResult, x: number, y: number): Explanation {
  const { trace, width, height } = result;
  const px = Math.min(width - 1, Math.max(0, Math.floor(x * width)));
  const py = Math.min(height - 1, Math.max(0, Math.floor(y * height)));
  const s = trace.regionOf[py * width + px];
  if (s < 0) {
    return {
      label: null,
      probabilities: null,
      sentence: 'The picture is transparent here.',
      colour: [0, 0, 0],
      pairs: [],
      ...NOWHERE,
    };
  }
  const colour = colourOf(trace.rgb, s);
  if (trace.excluded[s] !== 0 || trace.probability.length === 0) {
    const sentence =
      trace.excluded[s] !== 0
        ? WHY_NOT[trace.excluded[s]]
        : 'The picture does not tell enough about its light to judge single places.';
    return { label: null, probabilities: null, sentence, colour, pairs: [], ...NOWHERE };
  }
  const probabilities = [...trace.probability.subarray(4 * s, 4 * s + 4)];
  const label = LABELS[probabilities.indexOf(Math.max(...probabilities))];
  const pairs = pairsOf(result, s);
  const sentence = sentenceOf(result, s, label, pairs);
  return { label, probabilities, sentence, colour, pairs, ...placeAt(result, s) };
}

const NOWHERE = { place: null, way: null };
/** Colours shown of a surface's way. */
const STEPS = 9;

function placeAt({ places, q }: LightResult, s: number): Pick<Explanation, 'place' | 'way'> {
  const place = places.find(({ regions }) => regions.includes(s));
  if (!place || !q) return NOWHERE;
  return { place, way: wayOfPlace(place, q, STEPS) };
}

function pairsOf({ trace, width, height }: LightResult, s: number): ExplainedPair[] {
  const found: ExplainedPair[] = [];
  const { pieceOf } = trace;
  for (let p = 0; p < trace.bright.length; p++) {
    // What was said about the piece that the region belongs to, was said about the region.
    const brighter = pieceOf[trace.dark[p]] === pieceOf[s];
    if (brighter === (pieceOf[trace.bright[p]] === pieceOf[s])) continue;
    const other = brighter ? trace.bright[p] : trace.dark[p];
    const said = [trace.says[3 * p], trace.says[3 * p + 1], trace.says[3 * p + 2]];
    const most = Math.max(...said);
    const k = most > 0.1 ? said.indexOf(most) : 3;
    found.push({
      x: (trace.px[other] + 0.5) / width,
      y: (trace.py[other] + 0.5) / height,
      rgb: colourOf(trace.rgb, other),
      brighter,
      says: (['shade', 'neutral', 'opposite', 'nothing'] as const)[k],
      weight: most * trace.weight[p],
    });
  }
  found.sort((a, b) => b.weight - a.weight);
  // One of each neighbour: the same region is near to several of the piece's.
  const seen = new Set<string>();
  return found.filter(({ x, y }) => seen.size < SHOWN && seen.size !== seen.add(`${x} ${y}`).size);
}

function sentenceOf(result: LightResult, s: number, label: string, pairs: readonly ExplainedPair[]): string {
  const speaking = pairs.filter((p) => p.says !== 'nothing').length;
  const seen = (what: string) => {
    if (speaking === 0) return `The same ${what} is lit farther off`;
    return speaking === 1
      ? `One place nearby of the same ${what} is lit`
      : `${speaking} places nearby of the same ${what} are lit`;
  };
  if (result.trace.flagged[s] === 1) {
    return `${seen('colour')}; here it is only darker, without the colour of this scene's shade.`;
  }
  if (result.trace.flagged[s] === 2) {
    return `${seen('surface')}; from there to here the colour turns against the light of this scene.`;
  }
  if (speaking === 0)
    return 'Nothing nearby shows this surface in another light, so nothing is said about it.';
  if (label === 'lit') return 'Lit: nearby places of the same surface go into shade the way this light does.';
  if (label === 'shade') return 'In shade, and its colour follows the light of this scene.';
  return 'The signs are too weak here to flag it.';
}

function colourOf(rgb: Float64Array, s: number): [number, number, number] {
  return [rgb[3 * s], rgb[3 * s + 1], rgb[3 * s + 2]];
}
