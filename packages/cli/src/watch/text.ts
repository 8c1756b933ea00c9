import { changeSentence, type Finding, sixDigits } from '@halflight/engine';
import type { Style } from '../terminal/style.ts';
import { wrap } from '../terminal/wrap.ts';
import type { Save } from './read.ts';

/** How a finding moved since the save before. */
export type Course = 'new' | 'smaller' | 'larger' | 'still';

/** A finding of this save, and what became of it since the save before. */
export interface Moved {
  readonly finding: Finding;
  /** Null for the first save. */
  readonly course: Course | null;
}

/** Severity below which a finding counts as unmoved: our default. */
const MOVED = 0.02;

/** What stands, what is new, and what is gone since the save before. */
export function courses({ findings, before }: Save): { standing: Moved[]; gone: Finding[] } {
  const old = before?.findings ?? [];
  const standing = findings.map((finding): Moved => {
    if (before === null) return { finding, course: null };
    const was = old.find(({ key }) => key === finding.key);
    if (!was) return { finding, course: 'new' };
    const rise = finding.severity - was.severity;
    return { finding, course: rise < -MOVED ? 'smaller' : rise > MOVED ? 'larger' : 'still' };
  });
  const gone = old.filter(({ key }) => !findings.some((finding) => finding.key === key));
  return { standing, gone };
}

/** One save, for people: what it changed, what it settled, what stands. */
export function saveText(save: Save, time: string, style: Style): string {
  const { paint, width } = style;
  const { standing, gone } = courses(save);
  const lines = [`${paint.dim(time)}  ${paint.bold(save.facts.name)}`];
  if (save.change) lines.push(wrap(changeSentence(save.change), width, '  '));
  else if (save.before) lines.push(wrap('This is another picture than before.', width, '  '));
  for (const finding of gone) lines.push(wrap(`Gone: ${finding.text}`, width, '  '));
  for (const { finding, course } of standing) {
    const head = course === null ? '' : `${WORDS[course]}: `;
    lines.push(wrap(`${head}${finding.text}`, width, '  '));
    // What to do is said once, not at every save.
    if (course === null || course === 'new') lines.push(paint.dim(wrap(finding.todo, width, '    ')));
  }
  if (standing.length === 0) lines.push('  Nothing stands in its way.');
  return `${lines.join('\n')}\n\n`;
}

const WORDS: Readonly<Record<Course, string>> = {
  new: 'New',
  smaller: 'Smaller',
  larger: 'Larger',
  still: 'Still there',
};

/** One save as a line of JSON. */
export function saveLine(save: Save, at: string): string {
  const { name, width, height, depth, profile } = save.facts;
  const { standing, gone } = courses(save);
  return JSON.stringify(
    {
      schema: 'halflight/watch@1',
      at,
      picture: { name, width, height, depth, profile },
      change: save.change,
      findings: standing.map(({ finding: { reading, key, severity, text, todo, number }, course }) => ({
        reading,
        key,
        severity,
        text,
        todo,
        number,
        course,
      })),
      gone: gone.map(({ reading, key, text }) => ({ reading, key, text })),
    },
    sixDigits,
  );
}
