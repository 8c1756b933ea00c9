import type { Contacts } from './contacts.ts';
import type { Said } from './evidence.ts';
import type { Links } from './links.ts';
import type { Potentials } from './potentials.ts';

/** Labels of a piece: lit, shade, neutral, opposite. */
const K = 4;
const ROUNDS = 30;

/**
 * Probabilities of the labels by mean field (damped by half, all pieces at once: no order, so a mirrored
 * picture gives the mirrored answer).
 *
 * A contact speaks for (lit, shade), (lit, neutral), (lit, opposite) or for one label on both sides; links want
 * one label at both ends.
 */
export function meanField(
  count: number,
  contacts: Contacts,
  said: Said,
  like: Links,
  touch: Links,
  t: Potentials,
): Float64Array {
  const n = contacts.count;
  const force = new Float64Array(K * n);
  for (let c = 0; c < n; c++) {
    force[K * c] = Math.log1p(said.says[3 * c] / t.elseShade);
    force[K * c + 1] = Math.log1p(said.says[3 * c + 1] / t.elseNeutral);
    force[K * c + 2] = Math.log1p(said.says[3 * c + 2] / t.elseOpposite);
    force[K * c + 3] = Math.log1p(said.same[c] / t.elseTexture);
  }
  const prior = [0, t.shade, t.neutral, t.opposite];
  const sum = prior.reduce((s, v) => s + Math.exp(v), 0);
  let now = new Float64Array(K * count);
  let next = new Float64Array(K * count);
  for (let i = 0; i < now.length; i++) now[i] = Math.exp(prior[i % K]) / sum;
  for (let round = 0; round < ROUNDS; round++) {
    for (let i = 0; i < next.length; i++) next[i] = prior[i % K];
    for (let c = 0; c < n; c++) {
      const i = K * contacts.bright[c];
      const j = K * contacts.dark[c];
      const f = K * c;
      const up = said.toBright[c];
      const down = said.toDark[c];
      const s = force[f + 3];
      next[i] +=
        up * (s * now[j] + force[f] * now[j + 1] + force[f + 1] * now[j + 2] + force[f + 2] * now[j + 3]);
      next[j] += down * s * now[i];
      for (let k = 1; k < K; k++) {
        next[i + k] += up * s * now[j + k];
        next[j + k] += down * (s * now[i + k] + force[f + k - 1] * now[i]);
      }
    }
    agree(next, now, like, t.like);
    agree(next, now, touch, t.touch);
    for (let i = 0; i < next.length; i += K) {
      const top = Math.max(next[i], next[i + 1], next[i + 2], next[i + 3]);
      let z = 0;
      for (let k = 0; k < K; k++) {
        next[i + k] = Math.exp(next[i + k] - top);
        z += next[i + k];
      }
      for (let k = 0; k < K; k++) next[i + k] = 0.5 * now[i + k] + (0.5 * next[i + k]) / z;
    }
    [now, next] = [next, now];
  }
  return now;
}

function agree(next: Float64Array, now: Float64Array, links: Links, strength: number): void {
  for (let e = 0; e < links.a.length; e++) {
    const i = K * links.a[e];
    const j = K * links.b[e];
    const s = strength * links.strength[e];
    for (let k = 0; k < K; k++) {
      next[i + k] += s * now[j + k];
      next[j + k] += s * now[i + k];
    }
  }
}
