import { Command, InvalidArgumentError } from 'commander';
import { wholeNumber } from '../options.ts';
import type { AddOptions, NewOptions } from '../work/run.ts';
import type { StripOptions } from '../work/strip.ts';

/** `work new|add|show|verify|export|strip`: a work over time, in one portable file. */
export function workCommand(end: (code: number) => void): Command {
  const work = new Command('work')
    .description('Keep a work over time in one file, a dossier: its versions, readings and decisions.')
    .helpCommand(false)
    .addHelpText(
      'after',
      `
Examples:
  halflight work new ferry.halflight --picture ferry-1.png --title "Ferry landing" --intent dusk.json
  halflight work add ferry.halflight ferry-2.tif --minutes 45 --baseline mine.json --limit 200
  halflight work show ferry.halflight --json
  halflight work verify ferry.halflight
  halflight work export ferry.halflight --out ferry/
  halflight work strip ferry.halflight --out ferry-strip.webp --seconds 1.5

A dossier is only ever replaced whole. Its format is open: docs/dossier.md.
Exit code: 0 done, 1 a file could not be read or written, or is damaged, 2 wrong use.`,
    );

  work
    .command('new')
    .description('Start a work with its first picture.')
    .argument('<dossier>', 'the file to write, ending in .halflight')
    .requiredOption('--picture <file>', 'the first version')
    .option('--title <words>', 'title of the work; made from the picture’s name unless told')
    .option('--intent <file>', 'what was decided for it (JSON, halflight/intent@1)')
    .option('--baseline <file>', 'where your own finished works usually lie (JSON, halflight/baseline@1)')
    .option('--limit <megapixels>', 'refuse larger pictures', wholeNumber, 100)
    .action(async (path: string, options: NewOptions) => {
      const { startWork } = await import('../work/run.ts');
      end(await startWork(path, options));
    });

  work
    .command('add')
    .description('Add the next version, and say what it changed.')
    .argument('<dossier>', 'a .halflight file')
    .argument('<picture>', 'the next version; it may be scaled, cropped, mirrored or turned')
    .option('--minutes <number>', 'minutes of work since the version before', minutes)
    .option('--baseline <file>', 'where your own finished works usually lie (JSON, halflight/baseline@1)')
    .option('--limit <megapixels>', 'refuse larger pictures', wholeNumber, 100)
    .action(async (path: string, picture: string, options: AddOptions) => {
      const { addVersion } = await import('../work/run.ts');
      end(await addVersion(path, picture, options));
    });

  work
    .command('show')
    .description(
      'Say what a dossier holds, what each version changed, and whether work still changes anything.',
    )
    .argument('<dossier>', 'a .halflight file')
    .option('--json', 'one JSON object (halflight/work-show@1) in place of text')
    .action(async (path: string, options: { json?: boolean }) => {
      const { showWork } = await import('../work/show.ts');
      end(await showWork(path, options));
    });

  work
    .command('verify')
    .description('Read everything in a dossier and compare it with its checksums.')
    .argument('<dossier>', 'a .halflight file')
    .option('--json', 'one JSON object (halflight/work-verify@1) in place of text')
    .action(async (path: string, options: { json?: boolean }) => {
      const { verifyWork } = await import('../work/show.ts');
      end(await verifyWork(path, options));
    });

  work
    .command('export')
    .description('Write the originals, the readings and what was decided as ordinary files.')
    .argument('<dossier>', 'a .halflight file')
    .option('--out <folder>', 'a new or empty folder; named like the dossier unless told')
    .action(async (path: string, options: { out?: string }) => {
      const { exportWork } = await import('../work/export.ts');
      end(await exportWork(path, options));
    });

  work
    .command('strip')
    .description(
      'Write the versions as one picture, hung by effort and by what they changed, or as an animation.',
    )
    .argument('<dossier>', 'a .halflight file')
    .requiredOption('--out <file>', 'ending in .svg or .png (a picture) or .webp (an animation)')
    .option('--seconds <number>', 'how long each version stands in the animation', seconds, 1)
    .action(async (path: string, options: StripOptions) => {
      const { writeStrip } = await import('../work/strip.ts');
      end(await writeStrip(path, options));
    });

  return work;
}

function minutes(text: string): number {
  const value = Number(text);
  if (text.trim() === '' || !Number.isFinite(value) || value < 0)
    throw new InvalidArgumentError('It must be a number from 0 on.');
  return value;
}

function seconds(text: string): number {
  const value = Number(text);
  if (!Number.isFinite(value) || value > 60) throw new InvalidArgumentError('It must be a number up to 60.');
  return value;
}
