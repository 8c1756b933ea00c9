import { hueOf } from '../../colour/hue.ts';
import { chromaOf, hueMeaning, onOklab, outside } from '../lch.ts';
import { type StepKind, settingOf, UNCHANGED } from '../step.ts';

const AMOUNT = {
  key: 'amount',
  label: 'calm',
  unit: '%',
  min: 0,
  max: 100,
  neutral: 0,
  first: 50,
  digits: 0,
};

/** Takes chroma from hues outside the plan; hue and lightness stay. */
export const calmStrays: StepKind = {
  id: 'calmStrays',
  title: 'Calm strays',
  about: 'Makes hues outside your plan quieter instead of moving them.',
  sentence: 'calm hues outside the plan by {amount}',
  parameters: [AMOUNT],
  needs: ['families'],
  kernel(step) {
    const share = settingOf(step, AMOUNT) / 100;
    const families = [...(step.data?.families ?? []), ...(step.data?.keep ?? [])];
    if (share === 0 || families.length === 0) return UNCHANGED;
    return onOklab((lab, at, amount) => {
      const meaning = hueMeaning(chromaOf(lab, at));
      if (meaning === 0) return false;
      const hue = hueOf(lab[at + 1], lab[at + 2]);
      let away = 1;
      for (const arc of families) away = Math.min(away, outside(hue, arc, 20));
      if (away === 0) return false;
      const keep = 1 - share * amount * meaning * away;
      lab[at + 1] *= keep;
      lab[at + 2] *= keep;
      return true;
    });
  },
};
