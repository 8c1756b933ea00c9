import { warmthGains, warmthMover } from '../../colour/warmth.ts';
import { onLight } from '../lch.ts';
import { type StepKind, settingOf, UNCHANGED } from '../step.ts';

const MIRED = {
  key: 'mired',
  label: 'warmer',
  unit: 'mired',
  min: -150,
  max: 300,
  neutral: 0,
  first: 15,
  digits: 0,
};

/** Moves the light along the daylight locus (linear Bradford cone responses), white keeping its luminance. */
export const warmth: StepKind = {
  id: 'warmth',
  title: 'Warmer, cooler',
  about: 'The same scene in warmer or cooler daylight.',
  sentence: 'warm by {mired}',
  parameters: [MIRED],
  needs: [],
  kernel(step) {
    const mired = settingOf(step, MIRED);
    if (mired === 0) return UNCHANGED;
    const move = warmthMover(warmthGains(mired));
    return onLight((rgb, at, amount) => {
      move(rgb, at, amount);
      return true;
    });
  },
};
