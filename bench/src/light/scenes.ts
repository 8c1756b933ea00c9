/** The list of test scenes: which composition under which light, from which seed. */
import type { Haze, Scene } from '@halflight/demo/scene';
import { blocks, roomCorner, shelf, stillLife } from './compose/indoors.ts';
import { columns, hills, market, shore, street } from './compose/outdoors.ts';
import type { Composed } from './compose/parts.ts';
import { type Kit, kitOf, type LightKind } from './kit.ts';

const COMPOSITIONS = { stillLife, blocks, roomCorner, shelf, street, hills, columns, market, shore };

export interface SceneSpec {
  readonly name: string;
  readonly seed: number;
  readonly composition: keyof typeof COMPOSITIONS;
  readonly light: LightKind;
  readonly haze: boolean;
  /** Kept apart: not looked at while the algorithm is made. */
  readonly heldOut: boolean;
}

type Row = [composition: keyof typeof COMPOSITIONS, light: LightKind, haze?: 'haze'];

// Every third is held out. Seeds are the row numbers.
const ROWS: readonly Row[] = [
  ['stillLife', 'warm'],
  ['street', 'warm'],
  ['hills', 'warm', 'haze'],
  ['roomCorner', 'warm'],
  ['columns', 'cool'],
  ['market', 'warm'],
  ['blocks', 'stage'],
  ['shore', 'cool', 'haze'],
  ['shelf', 'warm'],
  ['street', 'mixed'],
  ['stillLife', 'stage'],
  ['columns', 'mixed'],
  ['hills', 'cool'],
  ['blocks', 'neutral'],
  ['roomCorner', 'cool'],
  ['market', 'neutral', 'haze'],
  ['shore', 'warm'],
  ['stillLife', 'neutral'],
  ['columns', 'warm', 'haze'],
  ['blocks', 'mixed'],
  ['shore', 'mixed'],
  ['hills', 'stage'],
  ['shelf', 'stage'],
  ['street', 'cool', 'haze'],
];

export const SCENES: readonly SceneSpec[] = ROWS.map(([composition, light, haze], i) => ({
  name: `${String(i + 1).padStart(2, '0')}-${composition}-${light}${haze ? '-haze' : ''}`,
  seed: i + 1,
  composition,
  light,
  haze: haze !== undefined,
  heldOut: i % 3 === 2,
}));

/** Builds a scene. Pure: the same spec gives the same scene. */
export function sceneOf(spec: SceneSpec): { scene: Scene; composed: Composed; kit: Kit } {
  const kit = kitOf(spec.seed, spec.light);
  const composed = COMPOSITIONS[spec.composition](kit);
  const haze = spec.haze ? { haze: hazeOf(kit, composed) } : {};
  const { camera, bodies, lights, fill, sky } = composed;
  return { scene: { camera, bodies, lights, fill, sky, ...haze }, composed, kit };
}

/** Mist that takes a quarter to a half of what stands 15 units away, in the colour of the sky at the horizon, a little dimmed. */
function hazeOf(kit: Kit, composed: Composed): Haze {
  const dim = kit.random.between(0.7, 0.95);
  const horizon = new Float64Array(3);
  composed.sky(0, 0, -1, horizon);
  return {
    density: kit.random.between(0.015, 0.035),
    height: kit.random.between(3, 9),
    colour: (_dx, _dy, _dz, out) => {
      for (let c = 0; c < 3; c++) out[c] = horizon[c]! * dim;
    },
  };
}
