import { onOklab } from '../lch.ts';
import { type StepKind, settingOf, UNCHANGED } from '../step.ts';

const GAIN = { key: 'gain', label: 'chroma', unit: '×', min: 0, max: 4, neutral: 1, first: 0.85, digits: 2 };

/** Multiplies OKLCh chroma; lightness and hue stay. */
export const chroma: StepKind = {
  id: 'chroma',
  title: 'Chroma',
  about: 'Colours stronger or quieter, with their hue and value kept.',
  sentence: 'multiply chroma by {gain}',
  parameters: [GAIN],
  needs: [],
  kernel(step) {
    const gain = settingOf(step, GAIN);
    if (gain === 1) return UNCHANGED;
    return onOklab((lab, at, amount) => {
      // A gain of 0 has no logarithm, so that strengths are mixed linearly.
      const g = 1 + (gain - 1) * amount;
      lab[at + 1] *= g;
      lab[at + 2] *= g;
      return true;
    });
  },
};
