import { stepKind } from '../edits/list.ts';
import type { Step } from '../edits/step.ts';

type Steps = readonly (Step | null)[];

/**
 * Every number with the digits that are shown, up or down, whichever costs less with the others as they are; a step of
 * which nothing is left becomes null.
 */
export function roundedSteps(steps: Steps, cost: (steps: Steps) => number): (Step | null)[] {
  let best = [...steps];
  for (let k = 0; k < best.length; k++)
    for (const key of Object.keys(best[k]?.values ?? {})) {
      const step = best[k];
      if (!step) break;
      const { digits, neutral } = stepKind(step.kind).parameters.find((p) => p.key === key)!;
      const unit = 10 ** digits;
      const value = step.values[key];
      const [down, up] = [Math.floor, Math.ceil].map((to) => {
        const rounded = Number((to(value * unit - (to === Math.ceil ? 1e-9 : -1e-9)) / unit).toFixed(digits));
        return best.map((s, j) => (j === k ? withValue(step, key, rounded, neutral) : s));
      });
      best = cost(down) < cost(up) ? down : up;
    }
  return best;
}

function withValue(step: Step, key: string, value: number, neutral: number): Step | null {
  const values = { ...step.values, [key]: value };
  if (value === neutral) delete values[key];
  return Object.keys(values).length > 0 ? { ...step, values } : null;
}
