import { Command } from 'commander';
import { outcomes } from '../check/all.ts';
import { lineOf } from '../check/line.ts';
import type { Wish } from '../check/look.ts';
import { mapNames } from '../check/names.ts';
import type { Outcome } from '../check/outcome.ts';
import { report } from '../check/text.ts';
import { readBaseline, readIntent, wholeNumber, writableFolder } from '../options.ts';
import { openProgress } from '../terminal/progress.ts';
import { styleOf } from '../terminal/style.ts';
import { EXIT } from '../trouble.ts';
import { ADVICE } from '../words.ts';

interface Options {
  readonly intent?: string;
  readonly baseline?: string;
  readonly maps?: string;
  readonly json?: boolean;
  readonly limit: number;
}

/** `check PICTURE…`: every reading of every picture, as text or as one JSON object a line. */
export function checkCommand(end: (code: number) => void): Command {
  return new Command('check')
    .description('Read pictures and say what keeps each from its mood, the weightiest first.')
    .argument('<picture...>', 'PNG, JPEG, WebP, TIFF, AVIF or GIF files')
    .option('--intent <file>', 'what was decided for the picture (JSON, halflight/intent@1)')
    .option('--baseline <file>', 'where your own finished works usually lie (JSON, halflight/baseline@1)')
    .option('--json', 'one JSON object a picture and line (halflight/check@1) in place of text')
    .option('--maps <folder>', 'also write where: grey pictures NAME.….png, white = flagged')
    .option('--limit <megapixels>', 'refuse larger pictures', wholeNumber, 100)
    .addHelpText(
      'after',
      `
Examples:
  halflight check ferry.png
  halflight check --intent dusk.json --maps out/ version-3.png version-4.png
  halflight check --json works/*.png > readings.jsonl

Exit code: 0 done, 1 some picture could not be read (the others are done), 2 wrong use.
${ADVICE}`,
    )
    .action(async (pictures: string[], options: Options) => end(await check(pictures, options)));
}

async function check(pictures: readonly string[], options: Options): Promise<number> {
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
  let unread = 0;
  for await (const outcome of outcomes(tasks, wish, progress.step)) {
    progress.pause();
    if ('trouble' in outcome) {
      unread++;
      process.stderr.write(`${outcome.trouble.sentence} ${outcome.trouble.todo}\n`);
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
