import { hueOf } from '../../colour/hue.ts';
import { chromaOf, hueDistance, hueMeaning, onOklab, turnBetween } from '../lch.ts';
import { type StepKind, settingOf, UNCHANGED } from '../step.ts';

const AMOUNT = {
  key: 'amount',
  label: 'gather',
  unit: '%',
  min: 0,
  max: 100,
  neutral: 0,
  first: 40,
  digits: 0,
};
/** How sharply a hue belongs to its nearest family: halfway between two families it is drawn to both and calms. Our default. */
const SHARPNESS = 30;
/** Over so many degrees beyond a family the step fades in. */
const FADE = 12;

/** Moves hues towards the families of the plan; lightness stays, colours between two families calm instead of tearing. */
export const gatherHues: StepKind = {
  id: 'gatherHues',
  title: 'Gather hues',
  about: 'Draws hues that stray towards the families of your plan; values stay.',
  sentence: 'gather hues to the plan by {amount}',
  parameters: [AMOUNT],
  needs: ['families'],
  kernel(step) {
    const share = settingOf(step, AMOUNT) / 100;
    const families = step.data?.families ?? [];
    const stays = [...families, ...(step.data?.keep ?? [])];
    if (share === 0 || families.length === 0) return UNCHANGED;
    const ends = families.map(({ hue, width }) => ({
      low: wayTo(hue - width / 2),
      high: wayTo(hue + width / 2),
    }));
    return onOklab((lab, at, amount) => {
      const chroma = chromaOf(lab, at);
      const meaning = hueMeaning(chroma);
      if (meaning === 0) return false;
      const hue = hueOf(lab[at + 1], lab[at + 2]);
      let away = 1;
      for (const { hue: centre, width } of stays)
        away = Math.min(away, Math.max(0, hueDistance(hue, centre) - width / 2) / FADE);
      // Most of a planned picture lies within its families.
      if (away === 0) return false;
      let a = 0;
      let b = 0;
      let total = 0;
      for (let k = 0; k < families.length; k++) {
        const { hue: centre, width } = families[k];
        const turn = turnBetween(hue, centre);
        // Beyond all families, or nothing would be left to do.
        const weight = Math.exp((width / 2 - Math.abs(turn)) / SHARPNESS);
        // The nearest hue of the family, not its middle: its own variety stays.
        const end = turn < 0 ? ends[k].low : ends[k].high;
        a += weight * end.a;
        b += weight * end.b;
        total += weight;
      }
      const part = share * amount * meaning * away;
      lab[at + 1] += part * ((chroma * a) / total - lab[at + 1]);
      lab[at + 2] += part * ((chroma * b) / total - lab[at + 2]);
      return true;
    });
  },
};

/** Direction of a hue in OKLab. */
function wayTo(hue: number): { readonly a: number; readonly b: number } {
  const t = (hue * Math.PI) / 180;
  return { a: Math.cos(t), b: Math.sin(t) };
}
