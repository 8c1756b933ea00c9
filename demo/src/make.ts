/** Paints the demo pictures: `node demo/dist/make.js [--out DIR] [--size WxH] [--versions 1,2,…] [--seed N] [--quiet]`. */
import { parseArgs } from 'node:util';
import { demoFolder, type FolderOptions } from './folder.ts';

const HELP = `Paints the ferry landing in five versions and prints the folder they are in.

  node demo/dist/make.js [--out DIR] [--size WxH] [--versions 1,2,…] [--seed N] [--quiet]

  --out DIR       where to write (default: the repository's .cache/demo)
  --size WxH      pixels (default 2400x1500)
  --versions …    which of 1 to 5 (default all)
  --seed N        another evening: sky, tide, boat, nets (default: the one of the demo)
  --quiet         no progress

Example: node demo/dist/make.js --size 480x300 --versions 4,5`;

class Misuse extends Error {}

function optionsOf(args: string[]): FolderOptions | null {
  let values: {
    out?: string;
    size?: string;
    versions?: string;
    seed?: string;
    quiet?: boolean;
    help?: boolean;
  };
  try {
    ({ values } = parseArgs({
      args,
      options: {
        out: { type: 'string' },
        size: { type: 'string' },
        versions: { type: 'string' },
        seed: { type: 'string' },
        quiet: { type: 'boolean' },
        help: { type: 'boolean' },
      },
    }));
  } catch (error) {
    throw new Misuse((error as Error).message);
  }
  if (values.help) return null;
  const size = /^(\d+)x(\d+)$/.exec(values.size ?? '2400x1500');
  if (!size) throw new Misuse(`A size is written as 2400x1500, not “${values.size}”.`);
  const [width, height] = [Number(size[1]), Number(size[2])];
  if (width < 16 || height < 16 || width * height > 100e6)
    throw new Misuse('The size must lie between 16x16 and 100 megapixels.');
  const versions = (values.versions ?? '1,2,3,4,5').split(',').map(Number);
  if (versions.some((v) => !Number.isInteger(v) || v < 1 || v > 5))
    throw new Misuse(`Versions are numbers from 1 to 5 with commas between them, not “${values.versions}”.`);
  const seed = values.seed === undefined ? undefined : Number(values.seed);
  if (seed !== undefined && !Number.isInteger(seed)) throw new Misuse('A seed is a whole number.');
  return {
    width,
    height,
    versions,
    ...(values.out === undefined ? {} : { out: values.out }),
    ...(seed === undefined ? {} : { seed }),
    ...(values.quiet || !process.stderr.isTTY ? {} : { onProgress: progress }),
  };
}

function progress(what: string, share: number): void {
  const text = what === 'scene' ? 'Looking at the scene' : 'Painting';
  process.stderr.write(`\r${text} ${Math.round(share * 100)} %   ${share === 1 ? '\n' : ''}`);
}

try {
  const options = optionsOf(process.argv.slice(2));
  console.log(options ? await demoFolder(options) : HELP);
} catch (error) {
  console.error((error as Error).message);
  process.exitCode = error instanceof Misuse ? 2 : 1;
}
