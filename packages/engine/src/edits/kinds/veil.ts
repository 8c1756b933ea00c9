import { onLight } from '../lch.ts';
import { type StepKind, settingOf, UNCHANGED } from '../step.ts';

const SCATTER = {
  key: 'scatter',
  label: 'fog',
  unit: '%',
  min: 0,
  max: 100,
  neutral: 0,
  first: 20,
  digits: 0,
};
const GLOW = { key: 'glow', label: 'glow', unit: '%', min: 0, max: 100, neutral: 0, first: 0, digits: 0 };

/**
 * Light between the eye and the scene: fog takes part of what is behind and puts its own light there (the airlight
 * model, Koschmieder 1924), glow only adds light.
 */
export const veil: StepKind = {
  id: 'veil',
  title: 'Veil',
  about: 'Fog, haze or glow as light between the eye and the scene.',
  sentence: 'lay [fog of {scatter}|glow of {glow}] over it',
  parameters: [SCATTER, GLOW],
  needs: ['colour'],
  kernel(step) {
    const scatter = settingOf(step, SCATTER) / 100;
    const glow = settingOf(step, GLOW) / 100;
    const colour = step.data?.colour;
    if ((scatter === 0 && glow === 0) || !colour) return UNCHANGED;
    return onLight((rgb, at, amount) => {
      const through = 1 - scatter * amount;
      const added = (scatter + glow) * amount;
      for (let c = 0; c < 3; c++) rgb[at + c] = rgb[at + c] * through + colour[c] * added;
      return true;
    });
  },
};
