import {
  type Baseline,
  type BaselineWork,
  makeBaseline,
  OPEN_INTENT,
  READINGS,
  sixDigits,
  WORKS_NEEDED,
} from '@halflight/engine';
import { writeAtomically } from '@halflight/files/node';
import { outcomes } from '../check/all.ts';
import type { Wish } from '../check/look.ts';
import { openProgress } from '../terminal/progress.ts';
import { type Style, styleOf } from '../terminal/style.ts';
import { EXIT, withTrouble } from '../trouble.ts';
import { picturesIn } from './pictures.ts';

export interface BaselineOptions {
  readonly out: string;
  readonly json?: boolean;
  readonly limit: number;
}

/** Reads finished works and writes down where they usually lie; gives the exit code. */
export async function baseline(paths: readonly string[], options: BaselineOptions): Promise<number> {
  const pictures = await picturesIn(paths);
  const wish: Wish = { intent: OPEN_INTENT, baseline: null, maps: null, limitMegapixels: options.limit };
  const progress = openProgress(pictures.length);
  const works: BaselineWork[] = [];
  const tasks = pictures.map((path) => ({ path, name: '' }));
  for await (const outcome of tasks.length > 0 ? outcomes(tasks, wish, progress.step) : []) {
    if ('looked' in outcome) works.push(outcome.looked.readings);
    else {
      progress.pause();
      process.stderr.write(`${outcome.trouble.sentence} ${outcome.trouble.todo}\n`);
    }
  }
  progress.end();
  const made = makeBaseline(works);
  if (made === null) {
    process.stderr.write(
      `${works.length === 1 ? '1 work' : `${works.length} works`} could be read; from ${WORKS_NEEDED} on they say what is usual for you. Nothing was written.\n`,
    );
    return EXIT.unread;
  }
  const code = await withTrouble(async () => {
    await writeAtomically(options.out, new TextEncoder().encode(`${JSON.stringify(made, sixDigits, 2)}\n`));
    process.stdout.write(
      options.json ? `${JSON.stringify(made, sixDigits)}\n` : text(made, styleOf(process.stdout)),
    );
  });
  return works.length < pictures.length ? EXIT.unread : code;
}

/** Ranges by reading, in each from the 10th to the 90th percentile. */
function text({ works, measures }: Baseline, { paint }: Style): string {
  const blocks = READINGS.flatMap(({ id, title, measures: kinds }) => {
    const lines = kinds.flatMap(({ key, label, unit, digits }) => {
      const range = measures[`${id}.${key}`];
      if (!range) return [];
      const [low, middle, high] = [range.p10, range.p50, range.p90].map((value) => value.toFixed(digits));
      return [`  ${label}: ${low} to ${high}${unit && ` ${unit}`}${paint.dim(`, in the middle ${middle}`)}`];
    });
    return lines.length > 0 ? [[paint.bold(title), ...lines].join('\n')] : [];
  });
  return `${works} finished works. Four in five of them lie here:\n\n${blocks.join('\n\n')}\n`;
}
