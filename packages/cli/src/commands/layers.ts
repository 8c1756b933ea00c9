import { Command } from 'commander';
import type { LayersOptions } from '../layers/run.ts';
import { wholeNumber } from '../options.ts';
import { ADVICE } from '../words.ts';

/** `layers FILE.ora`: what each layer is worth, and the file with what is decided made one. */
export function layersCommand(end: (code: number) => void): Command {
  return new Command('layers')
    .description('Tell what each layer of a picture is worth, which can go, and between which to choose.')
    .argument('<file>', 'a layered picture (OpenRaster, .ora)')
    .option('--json', 'one JSON object (halflight/layers@1) in place of text')
    .option(
      '--flatten <file>',
      'also write the picture with its painting made one and its effects kept apart',
    )
    .option('--limit <megapixels>', 'refuse larger pictures', wholeNumber, 100)
    .addHelpText(
      'after',
      `
Examples:
  halflight layers ferry-landing.ora
  halflight layers ferry-landing.ora --flatten ferry-landing-thin.ora

The file itself stays as it is. What is written is read back first: nothing may differ by more than one code value.
Exit code: 0 done, 1 the file could not be read or written, 2 wrong use.
${ADVICE}`,
    )
    .action(async (file: string, options: LayersOptions) => {
      const { layers } = await import('../layers/run.ts');
      end(await layers(file, options));
    });
}
