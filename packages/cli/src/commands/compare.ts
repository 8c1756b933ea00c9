import { Command } from 'commander';
import type { CompareOptions } from '../compare/run.ts';
import { wholeNumber } from '../options.ts';
import { ADVICE } from '../words.ts';

/** `compare A B`: what changed between two versions, from a distance and up close. */
export function compareCommand(end: (code: number) => void): Command {
  return new Command('compare')
    .description('Tell what changed between two versions of a picture: for the whole, and only up close.')
    .argument('<earlier>', 'the earlier version')
    .argument('<later>', 'the later version; it may be scaled, cropped, mirrored or turned')
    .option('--json', 'one JSON object (halflight/compare@1) in place of text')
    .option('--limit <megapixels>', 'refuse larger pictures', wholeNumber, 100)
    .addHelpText(
      'after',
      `
Example:
  halflight compare ferry-3.png ferry-4.png

Exit code: 0 done, 1 a picture could not be read or they are not versions of one, 2 wrong use.
${ADVICE}`,
    )
    .action(async (earlier: string, later: string, options: CompareOptions) => {
      const { compare } = await import('../compare/run.ts');
      end(await compare(earlier, later, options));
    });
}
