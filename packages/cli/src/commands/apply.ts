import { Command, Option } from 'commander';
import type { ApplyOptions } from '../apply/run.ts';
import { wholeNumber } from '../options.ts';

/** `apply PICTURE… --recipe FILE --out FILE|FOLDER`: the edit at full size and full depth. */
export function applyCommand(end: (code: number) => void): Command {
  return new Command('apply')
    .description(
      'Make the edit of a recipe on pictures, at full size and depth; the originals stay as they are.',
    )
    .argument('<picture...>', 'PNG, JPEG, WebP, TIFF, AVIF or GIF files, or folders of them')
    .requiredOption('--recipe <file>', 'the edit (JSON, halflight/recipe@1)')
    .requiredOption('--out <path>', 'a file (.ora: each step as a layer), or a folder for several pictures')
    .addOption(
      new Option('--depth <bits>', 'bits a channel; the picture’s own unless told').choices(['8', '16']),
    )
    .addOption(
      new Option('--space <name>', 'colour space; the picture’s own unless told').choices([
        'srgb',
        'display-p3',
        'a98-rgb',
      ]),
    )
    .option('--plain', 'leave out what the file says beside its pixels (camera, author, place)')
    .option('--limit <megapixels>', 'refuse larger pictures', wholeNumber, 100)
    .addHelpText(
      'after',
      `
Examples:
  halflight apply ferry.png --recipe calmer.json --out ferry-calmer.png
  halflight apply ferry.png --recipe calmer.json --out ferry-calmer.ora
  halflight apply series/ --recipe dusk.json --out edited/

Every file is read back and compared before it counts as written.
Exit code: 0 done, 1 some picture could not be edited (the others are done), 2 wrong use.`,
    )
    .action(async (pictures: string[], options: ApplyOptions) => {
      const { apply } = await import('../apply/run.ts');
      end(await apply(pictures, options));
    });
}
