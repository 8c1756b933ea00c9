import type { PictureFacts, Proposal } from '@halflight/engine';

/** One line of `propose --json`: the schema is a contract with scripts and only ever gains fields. */
export function lineOf({ name, width, height, depth, profile }: PictureFacts, proposal: Proposal): string {
  return JSON.stringify({
    schema: 'halflight/proposal@1',
    picture: { name, width, height, depth, profile },
    summary: proposal.summary,
    recipe: proposal.recipe,
    steps: proposal.steps.map(({ step, reason, serves, moves }) => ({
      kind: step.kind,
      reason,
      serves,
      moves: moves.map(({ reading, key, label, unit, before, after }) => ({
        reading,
        key,
        label,
        unit,
        before: short(before),
        after: short(after),
      })),
    })),
    findings: proposal.findings.map(({ finding, outcome, severityAfter, numberAfter }) => ({
      key: finding.key,
      reading: finding.reading,
      text: finding.text,
      outcome,
      severityBefore: short(finding.severity),
      severityAfter: short(severityAfter),
      numberBefore: finding.number,
      numberAfter,
    })),
    brings: proposal.brings.map(({ key, reading, text, severity }) => ({
      key,
      reading,
      text,
      severity: short(severity),
    })),
    mustRepaint: proposal.mustRepaint.map(({ finding, why }) => ({
      key: finding.key,
      reading: finding.reading,
      text: finding.text,
      why,
    })),
    change: short(proposal.change),
  });
}

/** Six digits are more than any reading is sure of. */
function short(value: number): number {
  return Number(value.toPrecision(6));
}
