/** What one answer is worth against the truth of its picture. Areas are in pixels. */
import { ciede2000, linearToCielab, luminance, type Triple } from '@halflight/engine';
import { type Answer, type FlagKind, meanOf } from './answer.ts';
import type { TruthMaps } from './store.ts';
import * as T from './truth.ts';

/** Places up to here count as near their lit part, in pixels at 900. */
export const NEAR = 60;

/** Found and planted area, by distance of the shade to its surface's lit part. */
export interface Found {
  found: number;
  planted: number;
}

export interface FlagScore {
  /** Flagged area that is planted shade, and that is not. Half tones of planted things count neither way. */
  right: number;
  wrong: number;
  near: Found;
  far: Found;
  hazed: Found;
  /** Planted shade whose reflectance is seen lit nowhere (no evidence, not expected). */
  undecidable: Found;
}

export interface Score {
  readonly flags: Record<FlagKind, FlagScore>;
  /** Flagged share of the picture where nothing is planted, by flag. */
  readonly alarms: Record<FlagKind, number>;
  /** Angle between stated and rendered shift in degrees and ratio of lengths; null where either is missing. */
  readonly direction: { degrees: number; size: number } | null;
  readonly stated: boolean;
  /** CIEDE2000 to the correct render at equal luminance, before and after, per rightly flagged place. */
  readonly colours: { before: number; after: number; area: number }[];
  readonly milliseconds: number;
}

const found = (): Found => ({ found: 0, planted: 0 });
const flagScore = (): FlagScore => ({
  right: 0,
  wrong: 0,
  near: found(),
  far: found(),
  hazed: found(),
  undecidable: found(),
});

/** Scores an answer. `now` is the picture that was read, `right` the correct one with the same finish. */
export function score(
  answer: Answer,
  truth: TruthMaps,
  shift: { readonly x: number; readonly y: number } | null,
  now: Float32Array,
  right: Float32Array,
  longSide: number,
): Score {
  const flags = { neutral: flagScore(), opposite: flagScore() };
  const alarms = { neutral: 0, opposite: 0 };
  const n = truth.labels.length;
  for (const kind of ['neutral', 'opposite'] as const) {
    const bit = kind === 'neutral' ? T.NEUTRAL : T.OPPOSITE;
    const s = flags[kind];
    for (let i = 0; i < n; i++) {
      const label = truth.labels[i]!;
      const what = label & T.KIND;
      if (what === T.EDGE) continue;
      const flagged = answer.flagged[kind][i] === 1;
      const planted = (label & bit) !== 0;
      if (planted && what === T.SHADE) {
        const d = truth.distance[i]!;
        const group =
          d === T.UNDECIDABLE
            ? s.undecidable
            : label & T.HAZED
              ? s.hazed
              : d * (900 / longSide) <= NEAR
                ? s.near
                : s.far;
        group.planted++;
        if (flagged) {
          group.found++;
          s.right++;
        }
      } else if (flagged && !(planted && halfTone(kind, what, truth.k[i]!))) {
        s.wrong++;
        alarms[kind] += 1 / n;
      }
    }
  }
  return {
    flags,
    alarms,
    direction: directionOf(answer.shift, shift),
    stated: answer.shift !== null,
    colours: coloursOf(answer, truth, now, right),
    milliseconds: answer.milliseconds,
  };
}

/** Where a planted thing is neither in full light nor in shade; a thing in the swapped light is wrong all over. */
function halfTone(kind: FlagKind, what: number, k: number): boolean {
  return what === T.HALF || (what === T.LIT && (kind === 'opposite' || k < 0.6 * 255));
}

function directionOf(said: Answer['shift'], rendered: Answer['shift']): Score['direction'] {
  if (!said || !rendered) return null;
  const a = Math.hypot(said.x, said.y);
  const b = Math.hypot(rendered.x, rendered.y);
  if (a === 0) return null;
  const cos = (said.x * rendered.x + said.y * rendered.y) / (a * b);
  return { degrees: (Math.acos(Math.min(1, Math.max(-1, cos))) * 180) / Math.PI, size: a / b };
}

function coloursOf(
  answer: Answer,
  truth: TruthMaps,
  now: Float32Array,
  right: Float32Array,
): Score['colours'] {
  const out: Score['colours'] = [];
  for (const place of answer.places) {
    const bit = place.kind === 'neutral' ? T.NEUTRAL : T.OPPOSITE;
    const hit = place.pixels.filter((i) => truth.labels[i]! & bit && (truth.labels[i]! & T.KIND) === T.SHADE);
    // Only places that are mostly planted: others are false alarms and counted as such.
    if (hit.length < 200 || hit.length < 0.5 * place.pixels.length) continue;
    const correct = meanOf(right, hit);
    const painted = meanOf(now, hit);
    out.push({
      before: differenceAt(correct, painted),
      after: differenceAt(correct, place.should),
      area: hit.length,
    });
  }
  return out;
}

/** CIEDE2000 after the second colour is brought to the first one's luminance. */
export function differenceAt(a: Triple, b: Triple): number {
  const scale = luminance(a[0], a[1], a[2]) / luminance(b[0], b[1], b[2]);
  return ciede2000(linearToCielab(a), linearToCielab([b[0] * scale, b[1] * scale, b[2] * scale]));
}
