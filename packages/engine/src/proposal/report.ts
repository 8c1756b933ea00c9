import type { Step, StepId } from '../edits/step.ts';
import type { Finding } from '../findings/finding.ts';
import { countWord, sentence } from '../findings/wording.ts';
import type { ReadingId } from '../readings/reading.ts';
import { measuredIn } from './measured.ts';
import { movesOf } from './moves.ts';
import { type Objective, SERVES, type Trial } from './objective.ts';
import { recipeOf, type Slot } from './slots.ts';
import type { FindingChange, Proposal, ProposalRequest, ProposedStep, Repaint } from './types.ts';
import type { Seen } from './verify.ts';
import { reasonFor, repaintWords } from './words.ts';

/** Severities that differ by less are the same. */
const SAME = 0.02;

/** What a kind of step is usually taken for: its reason begins there when it serves several findings. */
const OWN_READINGS: Partial<Record<StepId, readonly ReadingId[]>> = {
  gatherHues: ['hueSpread'],
  calmStrays: ['hueSpread'],
  warmth: ['mood'],
  match: ['mood'],
  openEnds: ['headroom'],
  chroma: ['mood', 'headroom'],
};

/** Puts a verified recipe into words. */
export function report(
  request: ProposalRequest,
  tried: Objective,
  slots: readonly Slot[],
  steps: readonly (Step | null)[],
  seen: Seen,
  evaluations: number,
): Proposal {
  const { findings: before } = request.examination;
  const outcomes = before.map((finding) => outcomeOf(finding, seen));
  const changes = outcomes.map(({ change }) => change);
  const all = tried.try(steps);
  const told = new Set<Finding>();
  const proposed = steps.flatMap((step, k): ProposedStep[] => {
    if (!step) return [];
    const upTo = tried.try(steps.map((s, j) => (j <= k ? s : null)));
    const butLast = tried.try(steps.map((s, j) => (j < k ? s : null)));
    const without = tried.try(steps.map((s, j) => (j === k ? null : s)));
    return [proposedStep(request, tried, slots[k], step, seen, { all, upTo, butLast, without }, told)];
  });
  const mustRepaint = outcomes.flatMap(({ change, after }): Repaint[] => {
    if (!after) return [];
    const { finding, outcome } = change;
    return [{ finding, why: repaintWords(finding, outcome === 'smaller' ? after : null) }];
  });
  return {
    recipe: recipeOf(proposed.map((p) => p.step)),
    steps: proposed,
    findings: changes,
    brings: broughtBy(before, seen.findings),
    mustRepaint,
    summary: summaryOf(changes, proposed.length),
    change: all.change,
    evaluations,
  };
}

/** What becomes of a finding, and what its reading finds after the edit. */
function outcomeOf(
  finding: Finding,
  { findings }: Seen,
): { change: FindingChange; after: Finding | undefined } {
  const mood = finding.reading === 'mood';
  // The mood speaks of its farthest axis only: another axis in its place is the same finding, smaller.
  const after = findings.find((f) => f.key === finding.key || (mood && f.reading === 'mood'));
  const severityAfter = after?.severity ?? 0;
  const outcome = !after ? 'met' : severityAfter < finding.severity - SAME ? 'smaller' : 'same';
  return { change: { finding, outcome, severityAfter, numberAfter: after?.number ?? null }, after };
}

/** New findings; a mood that speaks of another axis is not new. */
function broughtBy(before: readonly Finding[], after: readonly Finding[]): Finding[] {
  return after.filter(
    ({ key, reading }) => !before.some((f) => f.key === key || (reading === 'mood' && f.reading === 'mood')),
  );
}

interface Trials {
  readonly all: Trial;
  readonly upTo: Trial;
  readonly butLast: Trial;
  readonly without: Trial;
}

function proposedStep(
  { examination }: ProposalRequest,
  tried: Objective,
  slot: Slot,
  step: Step,
  seen: Seen,
  { all, upTo, butLast, without }: Trials,
  told: Set<Finding>,
): ProposedStep {
  const gains = tried.gauges
    .map(({ key }, k) => ({
      key,
      open: tried.open[k],
      gain: without.offs[k] - all.offs[k],
      alone: without.offs[k],
    }))
    .filter(({ gain }) => gain > SERVES)
    .sort((a, b) => b.gain - a.gain);
  const served = gains.filter((g) => g.open).map((g) => g.key);
  const serves = slot.serves ? [slot.serves, ...served] : served;
  const guards = gains.filter((g) => !g.open && g.alone > -0.1).map((g) => guarded(g.key));
  if (without.coreMoved - all.coreMoved > SERVES) guards.push('the accent and the lights keep their colour');
  const moves = movesOf(
    served.slice(0, 2),
    { truth: tried.truth, verified: measuredIn(seen) },
    { start: tried.before.measured, end: all.measured, before: butLast.measured, after: upTo.measured },
  );
  const named = serves
    .map((key) => examination.findings.find((f) => f.key === key))
    .filter((f) => f !== undefined);
  const own = named.find((f) => OWN_READINGS[step.kind]?.includes(f.reading)) ?? named[0];
  // A sentence that a step before began with is not said again.
  const finding = own && !told.has(own) ? own : null;
  if (finding) told.add(finding);
  const reason = reasonFor(step, slot, finding, moves, [...new Set(guards)]);
  return { step: { ...step, reason }, reason, serves, moves };
}

function guarded(key: string): string {
  if (key === 'headroom.darks') return 'the darks keep their room';
  if (key === 'headroom.lights') return 'the lights keep their room';
  if (key === 'headroom.colours') return 'the strongest colours keep their room';
  return 'other readings stay as they are';
}

function summaryOf(changes: readonly FindingChange[], steps: number): string {
  if (changes.length === 0) return 'Nothing stands in its way: there is nothing to propose.';
  const count = (outcome: FindingChange['outcome']): number =>
    changes.filter((c) => c.outcome === outcome).length;
  const total = changes.length;
  if (steps === 0)
    return total === 1
      ? 'No edit helps here: it is for the brush.'
      : `No edit helps with any of the ${countWord(total)} findings: they are for the brush.`;
  const met = count('met');
  const smaller = count('smaller');
  const parts = [];
  if (met > 0)
    parts.push(
      met === total
        ? total === 1
          ? 'the finding is met'
          : `${total === 2 ? 'both' : `all ${countWord(total)}`} findings are met`
        : `${countWord(met)} of ${countWord(total)} findings ${met === 1 ? 'is' : 'are'} met`,
    );
  if (total === 1 && smaller > 0) parts.push('the finding gets smaller');
  else if (smaller > 0) parts.push(`${countWord(smaller)} ${smaller === 1 ? 'gets' : 'get'} smaller`);
  const rest = total - met - smaller;
  if (rest > 0) parts.push(`${countWord(rest)} ${rest === 1 ? 'is' : 'are'} for the brush`);
  return sentence(`${steps === 1 ? 'with one step' : `with ${countWord(steps)} steps`} ${parts.join(', ')}.`);
}
