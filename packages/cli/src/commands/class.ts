import { Command, InvalidArgumentError, Option } from 'commander';
import type { Part } from '../class/files.ts';
import type { ClassOptions, PageOptions } from '../class/run.ts';
import { wholeNumber } from '../options.ts';
import { WrongUse } from '../trouble.ts';
import { ADVICE } from '../words.ts';

/** `class DIR` and `class merge PART…`: many works, read in one evening. */
export function classCommand(end: (code: number) => void): Command {
  const command = pageOptions(
    new Command('class')
      .description('Read all works of a class or series, and write readings and pages for each and for all.')
      .argument('<folder>', 'the works, beside each other; “Ana Brook - Dusk.png” is Ana Brook’s “Dusk”')
      .helpCommand(false),
  )
    .option(
      '--part <k/n>',
      'read only the k-th of n parts, for several machines; “class merge” joins them',
      part,
    )
    .option('--intent <file>', 'what the assignment decided (JSON, halflight/intent@1)')
    .option('--baseline <file>', 'ranges to read against (JSON, halflight/baseline@1)')
    .option('--title <words>', 'title of the class; made from the folder’s name unless told')
    .option('--dossiers', 'also write each student’s work as a dossier')
    .option('--limit <megapixels>', 'refuse larger pictures', wholeNumber, 100)
    .addHelpText(
      'after',
      `
Examples:
  halflight class works/ --out evening/ --intent dusk.json --names initials
  halflight class works/ --out part-1/ --part 1/4
  halflight class merge part-1/ part-2/ part-3/ part-4/ --out evening/

Ctrl+Z pauses and “fg” goes on; after Ctrl+C or a crash the same command goes on where it was.
Works stay on this machine. Share pages of others’ works only if they agree.
Exit code: 0 done, 1 some work could not be read (the others are done), 2 wrong use.
${ADVICE}`,
    )
    .action(async (folder: string, options: ClassOptions) => {
      needOut(options);
      const { readClass } = await import('../class/run.ts');
      end(await readClass(folder, options));
    });

  pageOptions(command.command('merge'))
    .description('Put parts together, as if they had been read in one run.')
    .argument('<part...>', 'folders that “class --part” wrote')
    .action(async (parts: string[], options: PageOptions) => {
      needOut(options);
      const { mergeClass } = await import('../class/merge.ts');
      end(await mergeClass(parts, options));
    });
  return command;
}

/** What both ways of writing pages know. */
function pageOptions(command: Command): Command {
  return command
    .option('--out <folder>', 'where to write (needed); an earlier run there is taken up again')
    .addOption(
      new Option('--names <how>', 'how names stand on the pages')
        .choices(['shown', 'initials', 'hidden'])
        .default('initials'),
    )
    .option('--pdf', 'write every page as PDF too')
    .option(
      '--plane <across,up>',
      'two numbers that the overview places works by: mood.warmCool,mood.key unless told',
    )
    .option('--json', 'one JSON object (halflight/class@1) in place of text');
}

/** Asked for by hand: a required option would be required of “merge” twice. */
function needOut({ out }: Partial<PageOptions>): void {
  if (out === undefined) throw new WrongUse('Name a folder to write into: --out FOLDER.');
}

function part(text: string): Part {
  const [, k, n] = (/^(\d+)\/(\d+)$/.exec(text) ?? []).map(Number);
  if (!(k >= 1 && k <= n)) throw new InvalidArgumentError('A part is written as 2/8: the second of eight.');
  return { k, n };
}
