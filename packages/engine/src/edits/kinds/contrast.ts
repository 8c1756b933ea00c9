import { luminance } from '../../colour/cielab.ts';
import { onLight } from '../lch.ts';
import { type StepKind, settingOf, UNCHANGED } from '../step.ts';

const AMOUNT = {
  key: 'amount',
  label: 'contrast',
  unit: '',
  min: -0.8,
  max: 1.5,
  neutral: 0,
  first: 0.15,
  digits: 2,
};
const PIVOT = {
  key: 'pivot',
  label: 'about',
  unit: 'Y',
  min: 0.01,
  max: 0.9,
  neutral: 0.18,
  first: 0.18,
  digits: 2,
};

/** Raises luminance to a power about a pivot (middle grey, Y = 0.18); chromaticity stays. */
export const contrast: StepKind = {
  id: 'contrast',
  title: 'Contrast',
  about: 'Spreads or narrows the distance of lights and darks from a middle value.',
  sentence: 'contrast by {amount} about a value of {pivot}',
  parameters: [AMOUNT, PIVOT],
  needs: [],
  kernel(step) {
    const strength = settingOf(step, AMOUNT);
    const pivot = settingOf(step, PIVOT);
    if (strength === 0) return UNCHANGED;
    return onLight((rgb, at, amount) => {
      const y = luminance(rgb[at], rgb[at + 1], rgb[at + 2]);
      if (y <= 0) return false;
      const gain = (y / pivot) ** (strength * amount);
      rgb[at] *= gain;
      rgb[at + 1] *= gain;
      rgb[at + 2] *= gain;
      return true;
    });
  },
};
