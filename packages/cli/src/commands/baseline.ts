import { Command } from 'commander';
import type { BaselineOptions } from '../baseline/run.ts';
import { wholeNumber } from '../options.ts';
import { ADVICE } from '../words.ts';

/** `baseline PICTURE|FOLDER… --out FILE`: where the artist's finished works usually lie. */
export function baselineCommand(end: (code: number) => void): Command {
  return new Command('baseline')
    .description('Read your own finished works once, and write down where they usually lie on every reading.')
    .argument('<path...>', 'pictures, or folders of pictures')
    .requiredOption('--out <file>', 'the file to write (JSON, halflight/baseline@1)')
    .option('--json', 'also print the baseline in place of text')
    .option('--limit <megapixels>', 'refuse larger pictures', wholeNumber, 100)
    .addHelpText(
      'after',
      `
Examples:
  halflight baseline finished/ --out mine.json
  halflight check --baseline mine.json ferry.png

Only ranges are written, no picture and no name. Leave --baseline away and all is as without.
Exit code: 0 done, 1 some picture could not be read or there are too few, 2 wrong use.
${ADVICE}`,
    )
    .action(async (paths: string[], options: BaselineOptions) => {
      const { baseline } = await import('../baseline/run.ts');
      end(await baseline(paths, options));
    });
}
