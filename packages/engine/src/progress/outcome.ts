import { fillOutlines } from '../areas/outline.ts';
import type { Answer } from '../findings/answer.ts';
import type { Finding } from '../findings/finding.ts';
import type { Field } from '../views/view.ts';

/** What became of something the artist meant to do. */
export type Outcome = 'gone' | 'smaller' | 'still';

/** A reading with its maps, as `examineReading` gives it. */
interface Seen {
  readonly findings: readonly Finding[];
  readonly reading: { readonly maps: Readonly<Record<string, () => Field>> };
}

/** Severity that must be gained before a finding counts as smaller: our default, half the slack of an answer. */
const GAINED = 0.05;
/** Share of a place that may stay flagged when it counts as gone, and as smaller: our defaults. */
const HARDLY = 0.1;
const LESS = 0.6;

/**
 * What a later version says to a "will do".
 *
 * @param answer its outline, if it has one, already carried to the later version
 * @param readings all readings of the later version
 */
export function outcomeOf(answer: Answer, readings: readonly Seen[]): Outcome {
  for (const { findings, reading } of readings) {
    const finding = findings.find(({ key }) => key === answer.key);
    if (!finding) continue;
    const map = answer.outline && finding.map ? reading.maps[finding.map]?.() : undefined;
    if (map) {
      const left = flaggedShare(answer.outline!, map);
      return left < HARDLY ? 'gone' : left < LESS ? 'smaller' : 'still';
    }
    return finding.severity < answer.severity - GAINED ? 'smaller' : 'still';
  }
  return 'gone';
}

/** Share of an outlined place that a map flags. */
function flaggedShare(outline: readonly number[], map: Field): number {
  const { data } = fillOutlines([outline], map.width, map.height);
  let flagged = 0;
  let all = 0;
  for (let p = 0; p < data.length; p++) {
    all += data[p];
    if (map.data[p] > 0.5) flagged += data[p];
  }
  return all > 0 ? flagged / all : 0;
}
