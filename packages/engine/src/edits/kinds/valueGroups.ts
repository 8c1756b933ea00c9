import { onOklab } from '../lch.ts';
import { type StepKind, settingOf, UNCHANGED } from '../step.ts';

const move = (key: string, label: string) => ({
  key,
  label,
  unit: '%',
  min: -15,
  max: 15,
  neutral: 0,
  first: 3,
  digits: 0,
});
const DARKS = move('darks', 'darks');
const MIDDLES = move('middles', 'middles');
const LIGHTS = move('lights', 'lights');
// OKLab lightness of the three groups' middles; between them a move fades from one group to the next.
const AT = [0.25, 0.55, 0.85];
/** Towards black and white a move fades this fast: times the largest move below 1, or values there would change places. */
const TO_ENDS = 6;

/** Moves dark, middle and light values apart or together, smoothly; chroma follows lightness. */
export const valueGroups: StepKind = {
  id: 'valueGroups',
  title: 'Value groups',
  about: 'Moves darks, middles and lights, to separate or join the big shapes.',
  sentence: 'move darks by {darks}, middles by {middles}, lights by {lights}',
  parameters: [DARKS, MIDDLES, LIGHTS],
  needs: [],
  kernel(step) {
    const moves = [DARKS, MIDDLES, LIGHTS].map((p) => settingOf(step, p) / 100);
    if (moves.every((m) => m === 0)) return UNCHANGED;
    return onOklab((lab, at, amount) => {
      const L = lab[at];
      const next =
        L +
        amount *
          between(L, moves) *
          Math.min(1, Math.max(0, TO_ENDS * L)) *
          Math.min(1, Math.max(0, TO_ENDS * (1 - L)));
      const scale = L > 0.02 ? Math.min(2, next / L) : 1;
      lab[at] = next;
      lab[at + 1] *= scale;
      lab[at + 2] *= scale;
      return true;
    });
  },
};

/** Value at L of a smooth line through the groups' moves. */
function between(L: number, moves: readonly number[]): number {
  if (L <= AT[0]) return moves[0];
  for (let k = 0; k < 2; k++)
    if (L <= AT[k + 1]) {
      const t = (L - AT[k]) / (AT[k + 1] - AT[k]);
      return moves[k] + (moves[k + 1] - moves[k]) * t * t * (3 - 2 * t);
    }
  return moves[2];
}
