import { Command } from 'commander';
import { wholeNumber } from '../options.ts';
import type { WatchOptions } from '../watch/run.ts';
import { ADVICE } from '../words.ts';

/** `watch PATH`: reads a picture again whenever the painting program saves it. */
export function watchCommand(end: (code: number) => void): Command {
  return new Command('watch')
    .description('Read a picture again at every save, and say what the save changed.')
    .argument('<path>', 'the picture that is being painted, or the folder that pictures are saved to')
    .option('--intent <file>', 'what was decided for the picture (JSON, halflight/intent@1)')
    .option('--baseline <file>', 'where your own finished works usually lie (JSON, halflight/baseline@1)')
    .option('--json', 'one JSON object a save and line (halflight/watch@1) in place of text')
    .option('--limit <megapixels>', 'refuse larger pictures', wholeNumber, 100)
    .addHelpText(
      'after',
      `
Examples:
  halflight watch ferry.png --intent dusk.json
  halflight watch exports/ --json

Files that are still being written are waited for. Ctrl+C ends it.
Exit code: 0 ended by you, 1 there is nothing at the path, 2 wrong use.
${ADVICE}`,
    )
    .action(async (path: string, options: WatchOptions) => {
      const { watch } = await import('../watch/run.ts');
      end(await watch(path, options));
    });
}
