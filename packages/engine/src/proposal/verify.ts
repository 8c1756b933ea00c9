import type { ColourSpace } from '../colour/space.ts';
import { readyRecipe } from '../edits/compile.ts';
import { editCensus } from '../edits/editCensus.ts';
import { editView } from '../edits/editView.ts';
import type { Recipe } from '../edits/step.ts';
import { takeSurvey } from '../edits/survey.ts';
import type { Finding } from '../findings/finding.ts';
import { stretch } from '../numbers/plane.ts';
import { type ExaminedReading, rank } from '../readings/examine.ts';
import { readEnds } from '../readings/headroom/headroom.ts';
import { READINGS } from '../readings/list.ts';
import { SOFTNESS_LONG_SIDE } from '../readings/mood/softness.ts';
import type { Reading, ReadingId, ReadingInput, ReadingKind } from '../readings/reading.ts';
import { viewsOf } from '../views/makeViews.ts';
import { reduceView } from '../views/resample.ts';
import type { View } from '../views/view.ts';
import type { ProposalRequest } from './types.ts';

/** A reading without the words and drawings that screens show of it. */
type Read = Pick<ExaminedReading, 'id' | 'reading' | 'findings'>;

/** What the readings say of an edited view. */
export interface Seen {
  readonly readings: readonly Read[];
  /** Open findings after the edit. */
  readonly findings: readonly Finding[];
}

/**
 * Makes the edit on the pixels of a view and reads it again; yields the share that is done.
 *
 * @param view the middle view when absent: no reading of colours looks closer
 * @param only which readings; all when absent
 */
export function* readEdited(
  request: ProposalRequest,
  recipe: Recipe,
  space: ColourSpace,
  view: View = request.input.views.middle,
  only?: ReadonlySet<ReadingId>,
): Generator<number, Seen> {
  const { input, answers = [] } = request;
  const ready = readyRecipe(recipe, view);
  const edited = editView(ready, view, space);
  yield 0.3;
  const colours = ready.areas.length === 0 ? input.census : takeSurvey(view, ready.areas, input.census);
  const census = editCensus(ready, colours, space);
  const leftOut = input.leftOut && stretch(input.leftOut, view.width, view.height);
  const after: ReadingInput = { ...input, census, leftOut, views: viewsOf(edited) };
  // Edges are as soft as on a copy of the close view: one of a copy would read softer.
  const soft = reduceView(input.views.close, SOFTNESS_LONG_SIDE);
  const softly: ReadingInput = {
    ...after,
    leftOut: input.leftOut && stretch(input.leftOut, soft.width, soft.height),
    views: { ...after.views, close: editView(ready, soft, space) },
  };
  const kinds = READINGS.filter((kind) => !only || only.has(kind.id));
  const readings: Read[] = [];
  for (const [k, kind] of kinds.entries()) {
    const own = kind.id === 'mood' ? softly : after;
    const quick = kind.id === 'headroom' ? readEnds(own) : kind.read(own);
    const found = findingsIn(kind, quick, own);
    // How far each edit may go is only told beside a finding.
    const whole = found.length > 0 && kind.id === 'headroom' ? kind.read(own) : quick;
    readings.push({
      id: kind.id,
      reading: whole,
      findings: whole === quick ? found : findingsIn(kind, whole, own),
    });
    yield 0.3 + (0.7 * (k + 1)) / kinds.length;
  }
  return { readings, findings: rank(readings, input.intent, answers).findings };
}

function findingsIn(kind: ReadingKind, reading: Reading<unknown>, input: ReadingInput): readonly Finding[] {
  return reading.evidence.level === 'weak' ? [] : kind.findings(reading, input);
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
