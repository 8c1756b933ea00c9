import { hueOf } from '../../colour/hue.ts';
import { chromaOf, hueMeaning, onOklab, outside } from '../lch.ts';
import { type StepKind, settingOf, UNCHANGED } from '../step.ts';

const CHROMA = {
  key: 'chroma',
  label: 'chroma',
  unit: '%',
  min: -50,
  max: 100,
  neutral: 0,
  first: 25,
  digits: 0,
};
const LIGHT = { key: 'light', label: 'light', unit: '%', min: -20, max: 20, neutral: 0, first: 3, digits: 0 };

/** Lifts one family, mostly in one place: chroma and lightness of its hues, fading outside its arc. */
export const accent: StepKind = {
  id: 'accent',
  title: 'Accent',
  about: 'Lifts one hue family in one place, so that it may stand out.',
  sentence: 'lift the accent by [{chroma} in chroma|{light} in light]',
  parameters: [CHROMA, LIGHT],
  needs: ['families'],
  kernel(step) {
    const more = settingOf(step, CHROMA) / 100;
    const light = settingOf(step, LIGHT) / 100;
    const family = step.data?.families?.[0];
    if ((more === 0 && light === 0) || !family) return UNCHANGED;
    return onOklab((lab, at, amount) => {
      const meaning = hueMeaning(chromaOf(lab, at));
      const part = amount * meaning * (1 - outside(hueOf(lab[at + 1], lab[at + 2]), family, 20));
      if (part === 0) return false;
      lab[at] += light * part;
      lab[at + 1] *= 1 + more * part;
      lab[at + 2] *= 1 + more * part;
      return true;
    });
  },
};
