import { PRESETS, type PresetName } from '@halflight/engine';
import { Command, Option } from 'commander';
import type { HandoverCall } from '../handover/run.ts';
import { wholeNumber } from '../options.ts';
import { ADVICE } from '../words.ts';

/** `handover PICTURE… --out FOLDER`: files that leave the house, checked, with what belongs to them. */
export function handoverCommand(end: (code: number) => void): Command {
  return new Command('handover')
    .description(
      'Make the files that leave: in the right size and colours, read back, with what belongs to them.',
    )
    .argument(
      '<picture...>',
      'PNG, JPEG, WebP, TIFF, AVIF or GIF files, or works (.halflight: the newest version with its edit)',
    )
    .requiredOption('--out <folder>', 'where everything is written; made when it is missing')
    .option('--recipe <file>', 'the edit to make first, a work’s own unless told (JSON, halflight/recipe@1)')
    .addOption(
      new Option('--preset <name>', 'what the files are for; screen unless told').choices(
        Object.keys(PRESETS) as PresetName[],
      ),
    )
    .option('--settings <file>', 'what differs from the preset (JSON, halflight/handover@1)')
    .option('--table', 'the edit as a table of colours too: NAME.clf and NAME.icc')
    .option('--palette', 'the colours that carry the picture: NAME.palette.json, .css and .svg')
    .option('--report', 'a report: NAME.report.html, .pdf, .png and .json')
    .addOption(
      new Option('--report-for <reader>', 'whose report; one’s own unless told')
        .choices(['own', 'student', 'client', 'all'])
        .default('own'),
    )
    .option('--lost', 'what the colour space loses: NAME.lost.png, and NAME.calmer.json where an edit helps')
    .option(
      '--process',
      'how it came to be: the edit step by step (NAME.edit.webp, .png and .svg), a work’s versions (NAME.versions.*)',
    )
    .option('--intent <file>', 'what was decided, for the report (JSON, halflight/intent@1)')
    .option(
      '--baseline <file>',
      'where finished works usually lie, for the report (JSON, halflight/baseline@1)',
    )
    .option('--json', 'one JSON object (halflight/handed-over@1) a picture, in place of text')
    .option('--limit <megapixels>', 'refuse larger pictures', wholeNumber, 100)
    .addHelpText(
      'after',
      `
Examples:
  halflight handover ferry.png --out delivery/
  halflight handover ferry.png --recipe dusk.json --preset print --out delivery/ --table --palette --report
  halflight handover series/*.png --settings portfolio.json --out delivery/

Originals stay as they are. Every file is read back from the disk before it counts as written. Places that a
picture's file names (GPS, towns) leave only when the settings say so.
Exit code: 0 done, 1 some picture could not be handed over (the others are done), 2 wrong use.
${ADVICE}`,
    )
    .action(async (pictures: string[], call: HandoverCall) => {
      const { handover } = await import('../handover/run.ts');
      end(await handover(pictures, call));
    });
}
