import { type PictureFacts, type Proposal, type ProposedStep, sentence, stepKind } from '@halflight/engine';
import type { Style } from '../terminal/style.ts';
import { wrap } from '../terminal/wrap.ts';

/** Where the picture is and where its recipe went. */
interface Files {
  readonly path: string;
  readonly out: string | undefined;
}

/** A proposal for people: what it comes to, the steps with their reasons, what is left for the brush. */
export function proposalText(picture: PictureFacts, proposal: Proposal, files: Files, style: Style): string {
  const { paint, width } = style;
  const { name, width: columns, height, depth, profile } = picture;
  const repaint = proposal.mustRepaint.map(({ finding, why }) =>
    [wrap(finding.text, width, '  '), paint.dim(wrap(why, width, '  '))].join('\n'),
  );
  const brings = proposal.brings.map(({ text, number }) => wrap(`${text} ${sentence(number)}.`, width, '  '));
  const blocks = [
    `${paint.bold(name)}\n${paint.dim(`${columns} × ${height}, ${depth} bit, ${profile}`)}`,
    paint.bold(wrap(proposal.summary, width)),
    ...proposal.steps.map((step, k) => stepBlock(step, k, style)),
    ...(brings.length > 0 ? [`${paint.bold('After it, this can be seen')}\n${brings.join('\n')}`] : []),
    ...(repaint.length > 0 ? [`${paint.bold('For the brush')}\n${repaint.join('\n\n')}`] : []),
    nextStep(proposal, files, style),
  ];
  return blocks.filter(Boolean).join('\n\n');
}

function stepBlock({ step, reason }: ProposedStep, k: number, { paint, width }: Style): string {
  const title = `${k + 1}. ${stepKind(step.kind).title}${step.strength < 1 ? `, at ${Math.round(100 * step.strength)} %` : ''}`;
  return `${paint.bold(title)}\n${wrap(reason, width, '   ')}`;
}

function nextStep({ steps }: Proposal, { path, out }: Files, { paint, width }: Style): string {
  if (steps.length === 0)
    return out === undefined ? '' : paint.dim(wrap(`“${out}” holds an empty edit.`, width));
  if (out === undefined) return paint.dim(wrap('Add --out RECIPE.json to keep this edit.', width));
  return paint.dim(
    `${wrap(`“${out}” holds the edit. To make it:`, width)}\n  halflight apply ${quoted(path)} --recipe ${quoted(out)} --out …`,
  );
}

function quoted(path: string): string {
  return /\s/.test(path) ? `"${path}"` : path;
}
