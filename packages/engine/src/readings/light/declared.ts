import type { LightIntent } from '../../intent/intent.ts';
import { type Changes, explained, type Ratio } from './curve.ts';
import { situationOf } from './situations.ts';

/** K/A is kept within this range: a fill without any light in a channel is never quite true. */
const LEAST = 0.03;
const MOST = 60;

/** K/A of a declared light; null when the light is left to the picture or its name is unknown. */
export function declaredRatio(light: LightIntent | null | undefined): Ratio | null {
  if (!light || light.kind === 'asRead') return null;
  const held = (v: number) => (Number.isFinite(v) ? Math.min(MOST, Math.max(LEAST, v)) : MOST);
  if (light.kind === 'situation') {
    const q = situationOf(light.name)?.q;
    return q ? [held(q[0]), held(q[1]), held(q[2])] : null;
  }
  // Lit = ρ(K + A), shade = ρA: their ratio is 1 + K/A, whatever the surface.
  const of = (c: number) => held(light.lit[c] / light.shade[c] - 1);
  return [of(0), of(1), of(2)];
}

/** Factors tried on the contrast of a declared situation. */
const CONTRASTS = [0.35, 0.5, 0.7, 1, 1.4, 2, 2.8];

/** The declared colours at the contrast that the picture shows: the factor on K/A whose curve explains most changes. */
export function contrastInPicture(q: Ratio, changes: Changes): Ratio {
  let best = q;
  let most = explained(q, changes);
  for (const f of CONTRASTS) {
    const tried: Ratio = [q[0] * f, q[1] * f, q[2] * f];
    const found = explained(tried, changes);
    if (found > 1.05 * most) {
      best = tried;
      most = found;
    }
  }
  return best;
}
