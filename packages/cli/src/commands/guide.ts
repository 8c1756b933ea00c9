import { Command } from 'commander';
import type { GuideOptions } from '../guide/run.ts';
import { wholeNumber } from '../options.ts';
import { ADVICE } from '../words.ts';

/** `guide PICTURE --out FILE.png`: a transparent layer that shows where to repaint and with which colours. */
export function guideCommand(end: (code: number) => void): Command {
  return new Command('guide')
    .description('Write a transparent layer of the picture’s size: where to repaint, and with which colours.')
    .argument('<picture>', 'a PNG, JPEG, WebP, TIFF, AVIF or GIF file')
    .requiredOption('--out <file>', 'the layer, a PNG')
    .option('--intent <file>', 'what was decided for the picture (JSON, halflight/intent@1)')
    .option('--baseline <file>', 'where your own finished works usually lie (JSON, halflight/baseline@1)')
    .option('--limit <megapixels>', 'refuse larger pictures', wholeNumber, 100)
    .addHelpText(
      'after',
      `
Example:
  halflight guide ferry.png --out ferry-guide.png

Lay the file over the painting, pick the colours from its flat squares (the large one is the one to paint, the small
ones are the lit side and the colour now), and delete the layer when done. It has the picture's own colour profile.
The file is read back and compared before it counts as written.
Exit code: 0 done, 1 the picture could not be read or the layer not written, 2 wrong use.
${ADVICE}`,
    )
    .action(async (picture: string, options: GuideOptions) => {
      const { guide } = await import('../guide/run.ts');
      end(await guide(picture, options));
    });
}
