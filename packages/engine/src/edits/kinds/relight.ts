import { luminance } from '../../colour/cielab.ts';
import { onLight } from '../lch.ts';
import { type StepKind, settingOf, UNCHANGED } from '../step.ts';

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
