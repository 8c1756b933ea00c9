import { chromaOf, hueDistance, hueMeaning, hueOf, onOklab } from '../lch.ts';
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
      for (const { hue: centre, width } of families) {
        const beyond = Math.max(0, hueDistance(hue, centre) - width / 2);
        const weight = Math.exp(-beyond / SHARPNESS);
        // The nearest hue of the family, not its middle: its own variety stays.
        const t = (nearestIn(hue, centre, width) * Math.PI) / 180;
        a += weight * Math.cos(t);
        b += weight * Math.sin(t);
        total += weight;
      }
      const part = share * amount * meaning * away;
      lab[at + 1] += part * ((chroma * a) / total - lab[at + 1]);
      lab[at + 2] += part * ((chroma * b) / total - lab[at + 2]);
      return true;
    });
  },
};

/** The hue of an arc that lies nearest to `hue`. */
function nearestIn(hue: number, centre: number, width: number): number {
  const off = ((((hue - centre) % 360) + 540) % 360) - 180;
  return centre + Math.min(width / 2, Math.max(-width / 2, off));
}
