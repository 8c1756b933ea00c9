import { Command } from 'commander';
import { wholeNumber } from '../options.ts';
import type { ProposeOptions } from '../propose/run.ts';
import { ADVICE } from '../words.ts';

/** `propose PICTURE`: the smallest edit that meets the open findings, and what is left for the brush. */
export function proposeCommand(end: (code: number) => void): Command {
  return new Command('propose')
    .description('Find the smallest edit that meets what was decided, and say what no edit can repair.')
    .argument('<picture>', 'a PNG, JPEG, WebP, TIFF, AVIF or GIF file')
    .option('--intent <file>', 'what was decided for the picture (JSON, halflight/intent@1)')
    .option('--baseline <file>', 'where your own finished works usually lie (JSON, halflight/baseline@1)')
    .option('--out <file>', 'write the edit as a recipe (JSON, halflight/recipe@1)')
    .option('--json', 'one JSON object (halflight/proposal@1) in place of text')
    .option('--limit <megapixels>', 'refuse larger pictures', wholeNumber, 100)
    .addHelpText(
      'after',
      `
Example:
  halflight propose ferry.png --intent dusk.json --out calmer.json
  halflight apply ferry.png --recipe calmer.json --out ferry-calmer.png

The picture is only read. Each step can be weakened, limited to an area or dropped in the recipe.
Exit code: 0 done (also when no edit helps), 1 the picture could not be read or the recipe not written, 2 wrong use.
${ADVICE}`,
    )
    .action(async (picture: string, options: ProposeOptions) => {
      const { propose } = await import('../propose/run.ts');
      end(await propose(picture, options));
    });
}
