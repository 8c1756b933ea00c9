import type { StageName } from '@halflight/engine';
import { Command, InvalidArgumentError, Option } from 'commander';
import type { LayersOptions } from '../layers/run.ts';
import { settleOf } from '../layers/settle.ts';
import { wholeNumber } from '../options.ts';
import { ADVICE } from '../words.ts';

const STAGE_NAMES: readonly StageName[] = ['all', 'seen', 'runs', 'decided', 'effects', 'one'];

/** `layers FILE.ora` or `layers A.png B.png …`: what each layer is worth, and the file with what is decided made one. */
export function layersCommand(end: (code: number) => void): Command {
  return new Command('layers')
    .description('Tell what each layer of a picture is worth, which can go, and between which to choose.')
    .argument(
      '<files...>',
      'a layered picture (OpenRaster, .ora), or its layers as PNGs of one size, lowest first',
    )
    .option('--json', 'one JSON object (halflight/layers@1) in place of text')
    .option(
      '--flatten <file>',
      'also write the picture with its painting made one and its effects kept apart',
    )
    .addOption(
      new Option('--stage <name>', 'how far --flatten goes, as --plan tells it').choices(STAGE_NAMES),
    )
    .option('--plan', 'also tell the ways to have fewer layers, with what each loses')
    .option('--choose <path...>', 'show this one of layers to choose between; the others of its set go')
    .addOption(
      new Option('--others <what>', 'what becomes of those that were not chosen')
        .choices(['drop', 'hide'])
        .default('drop'),
    )
    .option('--sweep <path>', 'also lay out the hues and strengths of this layer')
    .option(
      '--settle <path=turn,opacity>',
      'close a layer at a turn of its hues in degrees and an opacity (again for each)',
      settleOf,
      [],
    )
    .option(
      '--sheets <folder>',
      'also write the options, and what --sweep lays out, as pictures side by side',
    )
    .option('--intent <file>', 'what was decided for the picture (JSON, halflight/intent@1)')
    .option(
      '--mode <name=mode>',
      'how a PNG meets what lies below: multiply, screen … (again for each)',
      pair,
      [],
    )
    .option('--opacity <name=value>', 'opacity of a PNG, 0 to 1 (again for each)', pair, [])
    .option('--hidden <name...>', 'PNGs that are not shown now')
    .option('--flat <file>', 'the PNG of all layers together, to compare with')
    .option(
      '--without <file>',
      'of two flat pictures the one without a layer: tells what that layer is worth',
    )
    .option('--limit <megapixels>', 'refuse larger pictures', wholeNumber, 100)
    .addHelpText(
      'after',
      `
Examples:
  halflight layers ferry-landing.ora
  halflight layers ferry-landing.ora --flatten ferry-landing-thin.ora
  halflight layers ferry-landing.ora --plan
  halflight layers ferry-landing.ora --choose "evening gradient" --flatten ferry-landing-thin.ora --stage effects
  halflight layers ferry-landing.ora --sweep fog --sheets sheets
  halflight layers ferry-landing.ora --settle fog=20,0.5 --flatten ferry-landing-thin.ora
  halflight layers ground.png sheds.png fog.png --mode fog=screen --opacity fog=0.6 --flat ferry-landing.png
  halflight layers ferry-landing.png --without ferry-landing-no-fog.png

The file itself stays as it is. What is written is read back first: nothing may differ by more than one code value.
Exit code: 0 done, 1 the file could not be read or written, 2 wrong use.
${ADVICE}`,
    )
    .action(async (files: string[], options: LayersOptions) => {
      const { layers } = await import('../layers/run.ts');
      end(await layers(files, options));
    });
}

function pair(text: string, before: readonly [string, string][]): [string, string][] {
  const at = text.lastIndexOf('=');
  if (at < 1 || at === text.length - 1)
    throw new InvalidArgumentError('Write the name of the PNG, an equals sign and the value.');
  return [...before, [text.slice(0, at), text.slice(at + 1)]];
}
