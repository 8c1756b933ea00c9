import { onOklab } from '../lch.ts';
import { type StepKind, settingOf, UNCHANGED } from '../step.ts';

const DEGREES = {
  key: 'degrees',
  label: 'hue',
  unit: '°',
  min: -180,
  max: 180,
  neutral: 0,
  first: 8,
  digits: 0,
};

/** Turns OKLCh hue; lightness and chroma stay. */
export const hueTurn: StepKind = {
  id: 'hueTurn',
  title: 'Turn hues',
  about: 'Turns all hues by one angle, with chroma and value kept.',
  sentence: 'turn hues by {degrees}',
  parameters: [DEGREES],
  needs: [],
  kernel(step) {
    const degrees = settingOf(step, DEGREES);
    if (degrees === 0) return UNCHANGED;
    let last = Number.NaN;
    let cos = 1;
    let sin = 0;
    return onOklab((lab, at, amount) => {
      // Without an area all pixels have one amount.
      if (amount !== last) {
        last = amount;
        const t = (degrees * amount * Math.PI) / 180;
        cos = Math.cos(t);
        sin = Math.sin(t);
      }
      const a = lab[at + 1];
      const b = lab[at + 2];
      lab[at + 1] = a * cos - b * sin;
      lab[at + 2] = a * sin + b * cos;
      return true;
    });
  },
};
