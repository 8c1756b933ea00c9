/** Scenes that the light reading is made from: other seeds than those of the bench, every composition in many lights. */
import type { LightKind } from '../kit.ts';
import type { SceneSpec } from '../scenes.ts';

const COMPOSITIONS: readonly SceneSpec['composition'][] = [
  'stillLife',
  'blocks',
  'roomCorner',
  'shelf',
  'street',
  'hills',
  'columns',
  'market',
  'shore',
];
const LIGHTS: readonly LightKind[] = ['warm', 'cool', 'stage', 'warm', 'mixed', 'warm', 'cool', 'stage'];
const OUTSIDE: ReadonlySet<string> = new Set(['street', 'hills', 'columns', 'market', 'shore']);

/** A set of every composition several times: its seeds, and how lights and haze go round. */
interface Round {
  readonly letter: string;
  readonly turns: number;
  readonly seed: (i: number) => number;
  readonly light: (turn: number, composition: number) => number;
  readonly haze: (turn: number, composition: number) => boolean;
}

const ROUNDS: readonly Round[] = [
  {
    letter: 't',
    turns: 8,
    seed: (i) => 1001 + 7 * i,
    light: (turn, composition) => turn + 3 * composition,
    haze: (turn, composition) => (turn + composition) % 3 === 0,
  },
  {
    letter: 'u',
    turns: 4,
    seed: (i) => 5003 + 11 * i,
    light: (turn, composition) => 3 * turn + composition + 5,
    haze: (turn, composition) => (turn + 2 * composition) % 4 === 0,
  },
];

export const TRAINING: readonly SceneSpec[] = ROUNDS.flatMap((round) =>
  Array.from({ length: round.turns }, (_, turn) => turn).flatMap((turn) =>
    COMPOSITIONS.map((composition, c): SceneSpec => {
      const i = COMPOSITIONS.length * turn + c;
      const light = LIGHTS[round.light(turn, c) % LIGHTS.length]!;
      const haze = OUTSIDE.has(composition) && round.haze(turn, c);
      const number = String(i + 1).padStart(2, '0');
      return {
        name: `${round.letter}${number}-${composition}-${light}${haze ? '-haze' : ''}`,
        seed: round.seed(i),
        composition,
        light,
        haze,
        heldOut: false,
      };
    }),
  ),
);
