import { luminance } from '../../colour/cielab.ts';
import { logColour } from '../../readings/light/logColour.ts';
import { onLight } from '../lch.ts';
import { type Kernel, type StepData, type StepKind, settingOf, UNCHANGED } from '../step.ts';

const AMOUNT = {
  key: 'amount',
  label: 'relight',
  unit: '%',
  min: 0,
  max: 100,
  neutral: 0,
  first: 100,
  digits: 0,
};

type Gains = NonNullable<StepData['gains']>;
const SQRT6 = Math.sqrt(6);
/** Darker light has no colour to tell. */
const DARKEST = 1e-4;

/**
 * Gives a place the colour that the scene's light would give it: each channel of linear light is multiplied, so that
 * strokes and texture stay, and luminance is kept. The gains come from the light reading: the colour it should have, over the colour it has.
 */
export const relight: StepKind = {
  id: 'relight',
  title: 'Relight shade',
  about: 'Shade takes the colour of the light of the scene; strokes and values stay.',
  sentence: 'relight this shade by {amount}',
  parameters: [AMOUNT],
  needs: ['gains'],
  kernel(step) {
    const share = settingOf(step, AMOUNT) / 100;
    const gains = step.data?.gains;
    if (share === 0 || !gains) return UNCHANGED;
    const across = step.data?.across;
    if (across) return relightAcross(share, gains, across);
    let last = Number.NaN;
    let [r, g, b] = gains;
    return onLight((rgb, at, amount) => {
      if (amount !== last) {
        last = amount;
        [r, g, b] = gains.map((gain) => gain ** (share * amount));
      }
      const before = luminance(rgb[at], rgb[at + 1], rgb[at + 2]);
      const after = luminance(rgb[at] * r, rgb[at + 1] * g, rgb[at + 2] * b);
      // The value stays, whatever the colour of the paint.
      const keep = before > 0 && after > 0 ? before / after : 1;
      rgb[at] *= keep * r;
      rgb[at + 1] *= keep * g;
      rgb[at + 2] *= keep * b;
      return true;
    });
  },
};

/** Cool and warm lie at least so far apart on the way between them, so that a narrow one is not torn: 100 mired. */
const LEAST_WAY = 0.7;

/**
 * A sky holds every mixture of its cool and its warm colour: each place moves by the gains that its own share of the warm
 * one calls for, so that nothing in it tears.
 */
function relightAcross(
  share: number,
  gains: Gains,
  { cool, warm, gains: warmGains }: NonNullable<StepData['across']>,
): Kernel {
  const from = logColour(...cool);
  const to = logColour(...warm);
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  const way = Math.max(LEAST_WAY, length) * Math.max(length, 1e-6);
  const [dx, dy] = [(to.x - from.x) / way, (to.y - from.y) / way];
  const start = 0.5 - ((from.x + to.x) / 2) * dx - ((from.y + to.y) / 2) * dy;
  const one = gains.map((gain) => share * Math.log(gain));
  const two = warmGains.map((gain, c) => share * Math.log(gain) - one[c]);
  return onLight((rgb, at, amount) => {
    const red = Math.log(Math.max(DARKEST, rgb[at]));
    const green = Math.log(Math.max(DARKEST, rgb[at + 1]));
    const blue = Math.log(Math.max(DARKEST, rgb[at + 2]));
    const x = (red - green) * Math.SQRT1_2;
    const y = (red + green - 2 * blue) / SQRT6;
    const part = Math.min(1, Math.max(0, start + dx * x + dy * y));
    const before = luminance(rgb[at], rgb[at + 1], rgb[at + 2]);
    for (let c = 0; c < 3; c++) rgb[at + c] *= Math.exp(amount * (one[c] + part * two[c]));
    const after = luminance(rgb[at], rgb[at + 1], rgb[at + 2]);
    const keep = before > 0 && after > 0 ? before / after : 1;
    for (let c = 0; c < 3; c++) rgb[at + c] *= keep;
    return true;
  });
}
