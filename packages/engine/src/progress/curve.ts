import { countWord } from '../findings/wording.ts';
import type { Change } from './change.ts';
import { VISIBLE } from './compare.ts';

/** A version and what it changed; null when that is not known (the first one, or another picture). */
export interface Stage {
  readonly version: number;
  readonly change:
    | (Pick<Change, 'impact' | 'changedShare' | 'effort'> & Partial<Pick<Change, 'pose'>>)
    | null;
  /** Width and height of its file in pixels, where they are known. */
  readonly size?: readonly [number, number];
  /** Minutes of work since the version before, where they are known. */
  readonly minutes?: number;
}

/** A version at its place on the curve of effort and impact. */
export interface CurvePoint {
  readonly version: number;
  /** Fine detail changed up to here, added up; 1 is all of it once. */
  readonly effort: number;
  /** Change at the distance of a whole view up to here, in CIEDE2000, added up. */
  readonly impact: number;
  /** Minutes up to here; null when any of them is not known. */
  readonly minutes: number | null;
}

/** The last versions that worked on without changing the picture. */
export interface Diminishing {
  /** How many versions. */
  readonly versions: number;
  /** Share of the fine detail that they changed. */
  readonly effort: number;
  /** Share of the picture that they changed visibly. */
  readonly changedShare: number;
  /** Their impact added up, in CIEDE2000: less than can be seen. */
  readonly impact: number;
  /** One sentence for people. */
  readonly sentence: string;
}

export interface ProgressCurve {
  readonly points: readonly CurvePoint[];
  /** Null while work still changes something, or too little was done to tell. */
  readonly diminishing: Diminishing | null;
}

/** Fine detail that must have changed before "work that changes nothing" is spoken of: our default. */
const WORK = 0.05;

/**
 * Effort against impact over the versions of a work, and whether the last ones still changed the picture.
 *
 * Returns diminish when the last versions together bring less than the smallest visible change (mean CIEDE2000
 * below 1 at the whole view) while the work on fine detail goes on. Impacts are added: by the triangle inequality,
 * which CIEDE2000 nearly keeps for small differences, the picture changed at most by their sum. Shares that
 * several versions changed are put together as if they chose their places independently.
 *
 * @param stages in the order they came
 */
export function progressCurve(stages: readonly Stage[]): ProgressCurve {
  const points: CurvePoint[] = [];
  let effort = 0;
  let impact = 0;
  let minutes: number | null = 0;
  for (const { version, change, minutes: spent } of stages) {
    effort += change?.effort ?? 0;
    impact += change?.impact ?? 0;
    if (points.length > 0) minutes = minutes === null || spent === undefined ? null : minutes + spent;
    points.push({ version, effort, impact, minutes });
  }
  return { points, diminishing: diminishing(stages) };
}

function diminishing(stages: readonly Stage[]): Diminishing | null {
  let best: Omit<Diminishing, 'sentence'> | null = null;
  let impact = 0;
  let untouched = 1;
  let unchanged = 1;
  for (let n = 1; n < stages.length; n++) {
    const { change } = stages[stages.length - n];
    if (!change) break;
    impact += change.impact;
    if (impact >= VISIBLE) break;
    const effort = resampled(stages, stages.length - n) ? 0 : change.effort;
    untouched *= 1 - effort;
    unchanged *= 1 - change.changedShare;
    // A version that changed nothing at all is no work: it does not lengthen the row.
    if (effort > 0) best = { versions: n, effort: 1 - untouched, changedShare: 1 - unchanged, impact };
  }
  return best && best.effort >= WORK ? { ...best, sentence: sentence(best) } : null;
}

/**
 * Whether a version was scaled or cropped since the one before: fine detail is then lost or shifted by the new
 * pixels, which is no work (measured: up to 0.13 of it).
 */
function resampled(stages: readonly Stage[], k: number): boolean {
  const { change, size } = stages[k];
  const before = stages[k - 1]?.size;
  const { x, y, width, height } = change?.pose ?? { x: 0, y: 0, width: 1, height: 1 };
  if (x !== 0 || y !== 0 || width !== 1 || height !== 1) return true;
  return size !== undefined && before !== undefined && [...size].sort().join() !== [...before].sort().join();
}

function sentence({ versions, effort, changedShare }: Omit<Diminishing, 'sentence'>): string {
  const who = versions === 1 ? 'The last version' : `The last ${countWord(versions)} versions`;
  return `${who} changed ${percent(effort)} of the fine detail and ${percent(changedShare)} of the picture.`;
}

const percent = (share: number): string => (share < 0.01 ? 'under 1 %' : `${Math.round(100 * share)} %`);
