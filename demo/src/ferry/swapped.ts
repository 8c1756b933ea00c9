/** The light of somebody who painted one thing against the scene: key and fill change places, from the wrong side. */
import { FILL, KEY } from './materials.ts';
import { smooth } from './numbers.ts';
import { DECK } from './parts.ts';
import type { Study } from './study.ts';

const mean = (c: readonly number[]) => (c[0]! * c[1]! * c[2]!) ** (1 / 3);

/** Where the swapped light comes from. */
const WRONG_SIDE = [0.78, 0.2, 0.6] as const;
/** Key against fill before they change places, and the share of their colour that the swapped ones keep. */
const CONTRAST = 2.5;
export const PURITY = 0.92;
/** How strong the swapped light is altogether, and its key beside it. */
const STRENGTH = 1.8;
const KEY_STRENGTH = 1.15;
/** Fill on an upright wall in the open; corners and eaves hold back the swapped fill by this power of what they hold back of it. */
const OPEN_WALL = 0.65;
const HELD_BACK = 0.4;

const Q = KEY.map((k, c) => (CONTRAST * k) / FILL[c]!);
const Q_MEAN = mean(Q);
/** Swapped fill has the key's colour, K/A becomes s²/q with s the geometric mean of q, both a little less pure. */
const SWAPPED_FILL = KEY.map((k) => mean(FILL) * (k / mean(KEY)) ** PURITY);
const SWAPPED_KEY = SWAPPED_FILL.map((a, c) => a * Q_MEAN * (Q_MEAN / Q[c]!) ** PURITY);

/** Lit from the wrong side in the swapped light: ρ·(k′K′ + A′), k′ by the facing towards that side. */
export function turnAround(study: Study, i: number, light: number[], amount: number): void {
  const { normal, fill } = study;
  const facing =
    normal[i * 3]! * WRONG_SIDE[0] + normal[i * 3 + 1]! * WRONG_SIDE[1] + normal[i * 3 + 2]! * WRONG_SIDE[2];
  const k = KEY_STRENGTH * Math.max(0, facing) * paintedShadow(study, i);
  const held = Math.cbrt(fill[i * 3]! * fill[i * 3 + 1]! * fill[i * 3 + 2]!) / mean(FILL) / OPEN_WALL;
  const open = STRENGTH * OPEN_WALL * held ** HELD_BACK;
  for (let c = 0; c < 3; c++) {
    const turned = open * (SWAPPED_FILL[c]! + k * SWAPPED_KEY[c]!);
    light[c] = light[c]! ** (1 - amount) * turned ** amount;
  }
}

/**
 * The shadows that go with the wrong light on the right shed's front, as somebody would paint them: under the eaves,
 * and a broad one that falls slanting over the middle of the boards.
 */
function paintedShadow(study: Study, i: number): number {
  if (study.normal[i * 3 + 2]! < 0.6) return 1;
  const x = study.position[i * 3]!;
  const y = study.position[i * 3 + 1]!;
  const across = (x - FRONT.left) / FRONT.width;
  const roof = FRONT.eaves + FRONT.rise * (1 - Math.abs(2 * across - 1));
  const slant = across - 0.08 * (y - DECK);
  const beside = Math.max(smooth(0.16, 0.1, slant), smooth(0.47, 0.53, slant));
  return beside * smooth(0.3, 0.42, roof - y);
}

/** The right shed's gable in metres, near enough for shadows. */
const FRONT = { left: 6.05, width: 4.3, eaves: DECK + 2.3, rise: 1.5 } as const;
