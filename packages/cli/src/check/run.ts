import { readBaseline, readIntent, writableFolder } from '../inputs.ts';
import { openProgress } from '../terminal/progress.ts';
import { styleOf } from '../terminal/style.ts';
import { EXIT } from '../trouble.ts';
import { ADVICE } from '../words.ts';
import { outcomes } from './all.ts';
import { lineOf } from './line.ts';
import type { Wish } from './look.ts';
import { mapNames } from './names.ts';
import type { Outcome } from './outcome.ts';
import { report } from './text.ts';

export interface CheckOptions {
  readonly intent?: string;
  readonly baseline?: string;
  readonly maps?: string;
  readonly json?: boolean;
  readonly limit: number;
}

/** Looks at every picture and prints what was seen; gives the exit code. */
export async function check(pictures: readonly string[], options: CheckOptions): Promise<number> {
  const wish: Wish = {
    intent: await readIntent(options.intent),
    baseline: await readBaseline(options.baseline),
    maps: await writableFolder(options.maps),
    limitMegapixels: options.limit,
  };
  const names = mapNames(pictures);
  const tasks = pictures.map((path, i) => ({ path, name: names[i] }));
  const print = options.json ? printLine : textPrinter();
  const progress = openProgress(tasks.length);
  // Between reports a sentence about trouble stands apart.
  const apart = process.stdout.isTTY && !options.json && tasks.length > 1 ? '\n' : '';
  let unread = 0;
  for await (const outcome of outcomes(tasks, wish, progress.step)) {
    progress.pause();
    if ('trouble' in outcome) {
      unread++;
      process.stderr.write(`${apart}${outcome.trouble.sentence} ${outcome.trouble.todo}\n`);
    }
    print(outcome);
  }
  progress.end();
  if (unread > 0 && tasks.length > 1)
    process.stderr.write(`${unread} of ${tasks.length} pictures could not be read; the others are done.\n`);
  if (!options.json && unread < tasks.length) process.stdout.write(`\n${ADVICE}\n`);
  return unread > 0 ? EXIT.unread : EXIT.done;
}

function printLine(outcome: Outcome): void {
  process.stdout.write(`${lineOf(outcome)}\n`);
}

/** Reports with a rule between them. */
function textPrinter(): (outcome: Outcome) => void {
  const style = styleOf(process.stdout);
  let first = true;
  return (outcome) => {
    if (!('looked' in outcome)) return;
    if (!first) process.stdout.write(`\n${style.paint.dim('─'.repeat(style.width))}\n\n`);
    first = false;
    process.stdout.write(report(outcome.looked, style));
  };
}
