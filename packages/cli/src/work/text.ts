import { changeSentence, type Diminishing, type Finding, type ProgressCurve } from '@halflight/engine';
import { type Answer, currentVersion, type Version, type Work } from '@halflight/files';
import { PLAIN, type Style } from '../terminal/style.ts';
import { wrap } from '../terminal/wrap.ts';

/** What is said when a version came in: what it changed, what became of what was meant, what stands first. */
export function versionText(
  work: Work,
  findings: readonly Pick<Finding, 'text'>[],
  style: Style = PLAIN,
): string {
  const version = currentVersion(work);
  const top = findings[0];
  const blocks = [
    `${style.paint.bold(work.title)}, version ${version.number}`,
    ...(version.change ? [wrap(changeSentence(version.change), style.width)] : []),
    ...outcomeLines(work.answers, style),
    top ? wrap(`First: ${top.text}`, style.width) : 'Nothing stands in its way.',
  ];
  return `${blocks.join('\n')}\n`;
}

/** A whole work: its versions, what each changed, where it stands. */
export function workText(
  work: Work,
  curve: ProgressCurve,
  findings: readonly Pick<Finding, 'text' | 'todo'>[],
  style: Style,
): string {
  const { paint, width } = style;
  const blocks = [
    `${paint.bold(work.title)}\n${paint.dim(standing(work))}`,
    work.versions.map((version) => versionLines(version, style)).join('\n'),
    ...(curve.diminishing ? [diminishingText(curve.diminishing, style)] : []),
    ...outcomeLines(work.answers, style),
    ...findings
      .slice(0, 3)
      .map(({ text, todo }) => `${paint.bold(wrap(text, width))}\n${wrap(todo, width, '  ')}`),
    ...quietLines(work).map((line) => paint.dim(wrap(line, width))),
  ];
  return `${blocks.join('\n\n')}\n`;
}

function standing({ state, versions, created }: Work): string {
  const count = versions.length === 1 ? '1 version' : `${versions.length} versions`;
  return `${state}, ${count}, begun ${created.slice(0, 10)}`;
}

function versionLines(version: Version, { paint, width }: Style): string {
  const { number, name, added } = version;
  const size = `${version.width} × ${version.height}`;
  const minutes = version.minutes === undefined ? '' : `, ${Math.round(version.minutes)} minutes of work`;
  const head = `${String(number).padStart(3)}  ${name}  ${paint.dim(`${size}, ${added.slice(0, 10)}${minutes}`)}`;
  return version.change ? `${head}\n${wrap(changeSentence(version.change), width, '     ')}` : head;
}

function diminishingText({ sentence }: Diminishing, { paint, width }: Style): string {
  return `${paint.bold(wrap(sentence, width))}\n${wrap('Stand back before the next one: it may be done.', width, '  ')}`;
}

const OUTCOMES = { gone: 'gone', smaller: 'smaller, not gone', still: 'still there' } as const;

function outcomeLines(answers: readonly Answer[], { width }: Style): string[] {
  const asked = answers.filter(({ kind, outcome }) => kind === 'willDo' && outcome);
  if (asked.length === 0) return [];
  const lines = asked.map(({ sentence, outcome }) =>
    wrap(`${sentence.replace(/[.!]$/, '')}: ${OUTCOMES[outcome!.state]}.`, width, '  '),
  );
  return [['You meant to do', ...lines].join('\n')];
}

function quietLines({ glances, looks, decision, answers }: Work): string[] {
  const meant = answers.filter(({ kind }) => kind === 'meantSo').length;
  const count = (n: number, one: string, many: string): string => (n === 1 ? `1 ${one}` : `${n} ${many}`);
  return [
    ...(decision ? [`Called done on ${decision.at.slice(0, 10)}, at version ${decision.version}.`] : []),
    ...(meant > 0 ? [`${count(meant, 'finding was', 'findings were')} meant so.`] : []),
    ...(looks.length > 0
      ? [`${count(looks.length, 'quiet look', 'quiet looks')}, the last on ${looks.at(-1)!.at.slice(0, 10)}.`]
      : []),
    ...(glances.length > 0
      ? [`${count(glances.length, 'glance', 'glances')} that were not kept as versions.`]
      : []),
  ];
}
