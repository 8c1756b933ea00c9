import type { ColourSpace } from '../colour/space.ts';
import { readyRecipe } from '../edits/compile.ts';
import { editCensus } from '../edits/editCensus.ts';
import { editView } from '../edits/editView.ts';
import type { Recipe } from '../edits/step.ts';
import { takeSurvey } from '../edits/survey.ts';
import type { Finding } from '../findings/finding.ts';
import { type ExaminedReading, examineReading, rank } from '../readings/examine.ts';
import { READINGS } from '../readings/list.ts';
import type { ReadingId, ReadingInput } from '../readings/reading.ts';
import { viewsOf } from '../views/makeViews.ts';
import type { View } from '../views/view.ts';
import type { ProposalRequest } from './types.ts';

/** What the readings say of an edited close view. */
export interface Seen {
  readonly readings: readonly ExaminedReading[];
  /** Open findings after the edit. */
  readonly findings: readonly Finding[];
}

/**
 * Makes the edit on the pixels of a close view and reads it again; yields the share that is done.
 *
 * @param only which readings; all when absent
 */
export function* readEdited(
  request: ProposalRequest,
  recipe: Recipe,
  space: ColourSpace,
  close: View = request.input.views.close,
  only?: ReadonlySet<ReadingId>,
): Generator<number, Seen> {
  const { input, answers = [] } = request;
  const ready = readyRecipe(recipe, close);
  const edited = editView(ready, close, space);
  yield 0.3;
  const colours = ready.areas.length === 0 ? input.census : takeSurvey(close, ready.areas, input.census);
  const census = editCensus(ready, colours, space);
  const after: ReadingInput = { ...input, census, views: viewsOf(edited) };
  const kinds = READINGS.filter((kind) => !only || only.has(kind.id));
  const readings: ExaminedReading[] = [];
  for (const [k, kind] of kinds.entries()) {
    readings.push(examineReading(kind, after));
    yield 0.3 + (0.7 * (k + 1)) / kinds.length;
  }
  return { readings, findings: rank(readings, input.intent, answers).findings };
}

/** Severities are compared to this: a hundredth is nothing that anyone sees. */
const SAME = 0.01;

/** New findings may weigh this share of what an edit gains; they are told. Our default. */
const NEW = 0.5;

/**
 * Findings that an edit made worse, and those it brought that weigh too much against what it gains.
 *
 * What a reading finds that could tell nothing before was there already, unseen.
 */
export function worsened({ examination }: ProposalRequest, { findings: after, readings }: Seen): Finding[] {
  const before = examination.findings;
  const severity = (list: readonly Finding[], key: string): number =>
    list.find((f) => f.key === key)?.severity ?? 0;
  const worse = after.filter((f) => {
    const was = severity(before, f.key);
    return was > 0 && f.severity > was + SAME;
  });
  const fresh = after.filter((finding) => {
    if (severity(before, finding.key) > 0) return false;
    if (abstained(examination, finding.reading)) return false;
    // A reading may speak of its next trouble once the first is gone: no worse than the first is no worse.
    const first = before.filter((f) => f.reading === finding.reading).map((f) => f.severity);
    return finding.severity > Math.max(0, ...first) + SAME;
  });
  const gains = before.reduce((sum, f) => sum + Math.max(0, f.severity - severity(after, f.key)), 0);
  // A reading that is only fairly sure weighs half, and so does the light: opened darks can be judged for the first time.
  const halved = (id: ReadingId): boolean =>
    id === 'light' || readings.find((r) => r.id === id)?.reading.evidence.level === 'fair';
  const weight = fresh.reduce((sum, f) => sum + (halved(f.reading) ? 0.5 : 1) * f.severity, 0);
  return weight > NEW * gains ? [...worse, ...fresh] : worse;
}

function abstained({ readings }: ProposalRequest['examination'], id: ReadingId): boolean {
  return readings.find((r) => r.id === id)?.reading.evidence.level === 'weak';
}
