import { Command } from 'commander';
import type { CheckOptions } from '../check/run.ts';
import { wholeNumber } from '../options.ts';
import { ADVICE } from '../words.ts';

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
    .action(async (pictures: string[], options: CheckOptions) => {
      // Loaded only now, so that help and wrong use answer at once.
      const { check } = await import('../check/run.ts');
      end(await check(pictures, options));
    });
}
