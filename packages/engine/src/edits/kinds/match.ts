import { onOklab } from '../lch.ts';
import { mongeKantorovich } from '../mongeKantorovich.ts';
import { type StepKind, settingOf, UNCHANGED } from '../step.ts';

const AMOUNT = {
  key: 'amount',
  label: 'match',
  unit: '%',
  min: 0,
  max: 100,
  neutral: 0,
  first: 40,
  digits: 0,
};

/** Moves the picture's colours as a whole to where an example's lie, with the least change (linear, in OKLab). */
export const match: StepKind = {
  id: 'match',
  title: 'Match an example',
  about: 'Brings the whole colouring towards that of an example picture.',
  sentence: 'match the example by {amount}',
  parameters: [AMOUNT],
  needs: ['from', 'to'],
  kernel(step) {
    const share = settingOf(step, AMOUNT) / 100;
    const { from, to } = step.data ?? {};
    if (share === 0 || !from || !to) return UNCHANGED;
    const T = mongeKantorovich(from.covariance, to.covariance);
    return onOklab((lab, at, amount) => {
      const part = share * amount;
      const d = [lab[at] - from.mean[0], lab[at + 1] - from.mean[1], lab[at + 2] - from.mean[2]];
      for (let i = 0; i < 3; i++) {
        const moved = to.mean[i] + T[3 * i] * d[0] + T[3 * i + 1] * d[1] + T[3 * i + 2] * d[2];
        lab[at + i] += part * (moved - lab[at + i]);
      }
      return true;
    });
  },
};
