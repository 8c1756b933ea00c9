import { onLight } from '../lch.ts';
import { type StepKind, settingOf, UNCHANGED } from '../step.ts';

const STOPS = {
  key: 'stops',
  label: 'exposure',
  unit: 'stops',
  min: -4,
  max: 4,
  neutral: 0,
  first: 0.3,
  digits: 2,
};

/** Multiplies linear light. */
export const exposure: StepKind = {
  id: 'exposure',
  title: 'Exposure',
  about: 'More or less light on the whole, as if the scene were lit more strongly.',
  sentence: 'expose by {stops}',
  parameters: [STOPS],
  needs: [],
  kernel(step) {
    const stops = settingOf(step, STOPS);
    if (stops === 0) return UNCHANGED;
    let last = Number.NaN;
    let gain = 1;
    return onLight((rgb, at, amount) => {
      // Without an area all pixels have one amount.
      if (amount !== last) {
        last = amount;
        gain = 2 ** (stops * amount);
      }
      rgb[at] *= gain;
      rgb[at + 1] *= gain;
      rgb[at + 2] *= gain;
      return true;
    });
  },
};
