import { chromaLimit } from '../../colour/chromaLimit.ts';
import { hueOf } from '../../colour/hue.ts';
import { SRGB } from '../../colour/rgbSpaces.ts';
import { chromaOf, onOklab } from '../lch.ts';
import { type StepKind, settingOf, UNCHANGED } from '../step.ts';

const percent = (key: string, label: string, first: number) => ({
  key,
  label,
  unit: '%',
  min: 0,
  max: 30,
  neutral: 0,
  first,
  digits: 0,
});
const DARKS = percent('darks', 'darks', 6);
const LIGHTS = percent('lights', 'lights', 4);
const CHROMA = percent('chroma', 'chroma', 6);

/** Room is made within this range of lightness at each end, so that the middle stays. At least twice the largest amount, so that values keep their order. */
const REACH = 0.6;

/** Brings darks, lights and the strongest colours in from the ends; chroma follows lightness, so that nothing greys. */
export const openEnds: StepKind = {
  id: 'openEnds',
  title: 'Open the ends',
  about: 'Brings closed darks, lights and colours in, so that they can be edited again.',
  sentence: 'bring in [darks by {darks}|lights by {lights}|the strongest colours by {chroma}]',
  parameters: [DARKS, LIGHTS, CHROMA],
  needs: [],
  kernel(step) {
    const dark = settingOf(step, DARKS) / 100;
    const light = settingOf(step, LIGHTS) / 100;
    const strong = settingOf(step, CHROMA) / 100;
    if (dark === 0 && light === 0 && strong === 0) return UNCHANGED;
    const limit = chromaLimit(SRGB);
    return onOklab((lab, at, amount) => {
      const L = Math.min(1, Math.max(0, lab[at]));
      const low = Math.max(0, 1 - L / REACH);
      const high = Math.max(0, 1 - (1 - L) / REACH);
      const next = lab[at] + amount * (dark * low * low - light * high * high);
      // A lifted dark keeps its colourfulness: chroma grows with lightness, up to twice.
      const grown = L > 0.02 && next > L ? Math.min(2, next / L) : 1;
      lab[at] = next;
      lab[at + 1] *= grown;
      lab[at + 2] *= grown;
      if (strong === 0) return true;
      const chroma = chromaOf(lab, at);
      const edge = limit(Math.min(0.999, Math.max(0.001, next)), hueOf(lab[at + 1], lab[at + 2]));
      if (chroma > 0 && edge > 0) {
        const held = knee(chroma / edge, 1 - strong * amount) * edge;
        lab[at + 1] *= held / chroma;
        lab[at + 2] *= held / chroma;
      }
      return true;
    });
  },
};

/** Leaves shares of the gamut below a knee, and lets the rest approach `top` with the same slope at the knee. */
function knee(share: number, top: number): number {
  const start = top - 2 * (1 - top);
  if (share <= start || top >= 1) return share;
  const room = top - start;
  return top - room * Math.exp(-(share - start) / room);
}
