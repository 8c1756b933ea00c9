import { onLight } from '../lch.ts';
import { type StepKind, settingOf } from '../step.ts';

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
    const whole = 2 ** stops;
    return onLight((rgb, at, amount) => {
      if (stops === 0) return false;
      const gain = amount === 1 ? whole : 2 ** (stops * amount);
      rgb[at] *= gain;
      rgb[at + 1] *= gain;
      rgb[at + 2] *= gain;
      return true;
    });
  },
};
