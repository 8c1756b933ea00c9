import type { Views } from '../views/view.ts';
import { type Comparison, compareVersions } from './compare.ts';
import type { Pose } from './pose.ts';
import { register } from './register.ts';

/** What changed from one version to the next, as numbers that can be kept. */
export interface Change
  extends Pick<Comparison, 'impact' | 'impactP95' | 'changedShare' | 'effort' | 'effortWithoutImpact'> {
  /** How the later version lies on the earlier one. */
  readonly pose: Pose;
}

/** Finds the later version on the earlier one and compares them; null when nothing of one is seen in the other. */
export function changeBetween(earlier: Views, later: Views): Change | null {
  const found = register(earlier.close, later.close);
  if (!found) return null;
  const { pose } = found;
  const { impact, impactP95, changedShare, effort, effortWithoutImpact } = compareVersions(
    earlier,
    later,
    pose,
  );
  return { pose, impact, impactP95, changedShare, effort, effortWithoutImpact };
}
