import { onOklab } from '../lch.ts';
import { type StepKind, settingOf, UNCHANGED } from '../step.ts';
import { toneCurve } from '../toneCurve.ts';

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
/** OKLab lightness of the groups: darks and lights reach to where the way to black and white begins. */
const AT = [1 / 6, 0.25, 0.55, 0.85];

/** Moves dark, middle and light values apart or together along one curve that rises everywhere; chroma follows lightness. */
export const valueGroups: StepKind = {
  id: 'valueGroups',
  title: 'Value groups',
  about: 'Moves darks, middles and lights, to separate or join the big shapes.',
  sentence: 'move [darks by {darks}|middles by {middles}|lights by {lights}]',
  parameters: [DARKS, MIDDLES, LIGHTS],
  needs: [],
  kernel(step) {
    const [darks, middles, lights] = [DARKS, MIDDLES, LIGHTS].map((p) => settingOf(step, p) / 100);
    if (darks === 0 && middles === 0 && lights === 0) return UNCHANGED;
    const moves = [darks, darks, middles, lights];
    const curve = toneCurve(
      AT,
      AT.map((at, k) => at + moves[k]),
    );
    return onOklab((lab, at, amount) => {
      const L = lab[at];
      const next = L + amount * (curve(L) - L);
      const scale = L > 0.02 ? Math.min(2, next / L) : 1;
      lab[at] = next;
      lab[at + 1] *= scale;
      lab[at + 2] *= scale;
      return true;
    });
  },
};
