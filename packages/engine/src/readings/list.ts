import { detail } from './detail/kind.ts';
import { headroom } from './headroom/headroom.ts';
import { hueSpread } from './hueSpread/hueSpread.ts';
import { light } from './light/kind.ts';
import { mood } from './mood/mood.ts';
import { openDecisions } from './openDecisions/openDecisions.ts';
import type { ReadingKind } from './reading.ts';
import { value } from './value/value.ts';

/** Forgets the type of a reading's value, so that kinds can stand in one list; each still only sees its own values. */
function asKind<V>(kind: ReadingKind<V>): ReadingKind {
  return kind as unknown as ReadingKind;
}

/** Every reading, in the order of reports. One line here makes a reading appear everywhere. */
export const READINGS: readonly ReadingKind[] = [
  asKind(hueSpread),
  asKind(headroom),
  asKind(light),
  asKind(value),
  asKind(detail),
  asKind(mood),
  asKind(openDecisions),
];
