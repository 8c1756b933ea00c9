/**
 * The five versions of the ferry landing: how far each is painted and which faults are planted in it.
 *
 * All amounts stand here and in `docs/demo.md`; the operations are in `faults.ts`.
 */
import type { Atmosphere } from './light.ts';

/** A family of hue put where it doesn't belong. */
export interface Tint {
  /** Which part of the picture; see `PARTS` in `faults.ts`. */
  readonly part: string;
  /** OKLCh hue in degrees and chroma at lightness 0.5 (chroma follows lightness). */
  readonly hue: number;
  readonly chroma: number;
  /** 0 nothing … 1 the part's own hue and chroma are gone. */
  readonly amount: number;
}

export interface Version {
  readonly number: 1 | 2 | 3 | 4 | 5;
  readonly state: string;
  /** Smallest brush in widths of the picture; factors on tolerance and on the deviations between strokes. */
  readonly smallest: number;
  readonly tolerance: number;
  readonly jitter: number;
  readonly air: Atmosphere;
  /** Contrast of the nets' threads against what is behind: 1 as the scene has them. */
  readonly nets: number;
  /** Fine strokes forced onto the nets, 0…1 of full importance. */
  readonly overworked: number;
  /** Shade that only darkens, on these things: 1 = the shade has exactly the colour of the light. */
  readonly neutral: { readonly things: readonly string[]; readonly amount: number };
  /** A thing lit from the other side in the swapped light: 1 = altogether. */
  readonly opposite: { readonly thing: string; readonly amount: number } | null;
  readonly tints: readonly Tint[];
  /** Share of the picture's area that is closed to black (L* below 2). */
  readonly closed: number;
  /** Grey laid over everything: share, and its linear light. */
  readonly veil: { readonly amount: number; readonly grey: number };
}

const SHEDS = ['right shed', 'middle shed'] as const;
const BUILT = [...SHEDS, 'jetty', 'landing'] as const;
const NONE = { things: [], amount: 0 } as const;
const CLEAR = { amount: 0, grey: 0 } as const;
/** The two hues too many that stay from the colour stage until the last version. */
const TOO_MANY: readonly Tint[] = [
  { part: 'water', hue: 200, chroma: 0.1, amount: 0.85 },
  { part: 'lit clouds', hue: 342, chroma: 0.075, amount: 0.8 },
];

export const VERSIONS: readonly Version[] = [
  {
    number: 1,
    state: 'block-in',
    smallest: 0.0075,
    tolerance: 1.35,
    jitter: 1.5,
    air: { mist: 0.7, glow: 0.35, path: 0.25 },
    nets: 0.5,
    overworked: 0,
    neutral: { things: BUILT, amount: 1 },
    opposite: null,
    tints: [],
    closed: 0,
    veil: CLEAR,
  },
  {
    number: 2,
    state: 'colour everywhere',
    smallest: 0.0028,
    tolerance: 1.15,
    jitter: 1.1,
    air: { mist: 0.2, glow: 0.7, path: 0.4 },
    nets: 0.9,
    overworked: 0,
    neutral: { things: SHEDS, amount: 1 },
    opposite: null,
    tints: [
      { part: 'far shore', hue: 148, chroma: 0.144, amount: 1 },
      { part: 'left flats', hue: 148, chroma: 0.06, amount: 1 },
      { part: 'lit clouds', hue: 342, chroma: 0.054, amount: 0.85 },
      { part: 'band', hue: 95, chroma: 0.06, amount: 0.75 },
      { part: 'water', hue: 203, chroma: 0.06, amount: 0.9 },
      { part: 'high veil', hue: 203, chroma: 0.04, amount: 0.6 },
      { part: 'right shed', hue: 25, chroma: 0.06, amount: 0.9 },
      { part: 'boat', hue: 25, chroma: 0.072, amount: 0.9 },
      { part: 'planks', hue: 84, chroma: 0.063, amount: 0.9 },
    ],
    closed: 0,
    veil: CLEAR,
  },
  {
    number: 3,
    state: 'detail',
    smallest: 0.0012,
    tolerance: 1,
    jitter: 1.1,
    air: { mist: 0.9, glow: 0.9, path: 0.6 },
    nets: 2.4,
    overworked: 1,
    neutral: NONE,
    opposite: { thing: 'right shed', amount: 1 },
    tints: TOO_MANY,
    closed: 0.07,
    veil: CLEAR,
  },
  {
    number: 4,
    state: 'nearly',
    smallest: 0.0012,
    tolerance: 1,
    jitter: 1,
    air: { mist: 1, glow: 1, path: 0.6 },
    nets: 0.55,
    overworked: 0,
    neutral: NONE,
    opposite: null,
    tints: TOO_MANY,
    closed: 0,
    veil: { amount: 0.14, grey: 0.2 },
  },
  {
    number: 5,
    state: 'done',
    smallest: 0.0012,
    tolerance: 1,
    jitter: 1,
    air: { mist: 1, glow: 1, path: 1 },
    nets: 0.35,
    overworked: 0,
    neutral: NONE,
    opposite: null,
    tints: [],
    closed: 0,
    veil: CLEAR,
  },
];

/** The version of that number. Throws a RangeError for any other than 1 to 5. */
export function versionOf(number: number): Version {
  const found = VERSIONS.find((v) => v.number === number);
  if (!found) throw new RangeError(`There are versions 1 to 5 of the ferry landing, not ${number}.`);
  return found;
}
