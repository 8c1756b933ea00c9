import { stat } from 'node:fs/promises';
import { basename, extname, join } from 'node:path';
import { checkRecipe, DELIVERY_SPACES, type Recipe } from '@halflight/engine';
import { type Codec, type EncodeOptions, FileTrouble, type PictureFormat } from '@halflight/files';
import { editLayers } from '@halflight/files/layers';
import { openCodec, readBytes, writeAtomically } from '@halflight/files/node';
import { picturesIn } from '../baseline/pictures.ts';
import { tellTrouble } from '../check/outcome.ts';
import { readJson, writableFolder } from '../inputs.ts';
import { openProgress } from '../terminal/progress.ts';
import { EXIT, keepOriginal, WrongUse } from '../trouble.ts';
import { edit } from './edit.ts';
import { guidePlaces } from './guide.ts';

export interface ApplyOptions {
  readonly recipe: string;
  readonly out: string;
  readonly depth?: '8' | '16';
  readonly space?: keyof typeof DELIVERY_SPACES;
  readonly plain?: boolean;
  readonly limit: number;
}

/** Formats by the ending of the file to write. */
const FORMATS: Readonly<Record<string, EncodeOptions['format']>> = {
  '.png': 'png',
  '.jpg': 'jpeg',
  '.jpeg': 'jpeg',
  '.webp': 'webp',
  '.tif': 'tiff',
  '.tiff': 'tiff',
  '.avif': 'avif',
};

/** The ending of a layered file: the steps of the edit as layers. */
const LAYERED = '.ora';

/** Edits every picture, and every one in a folder; gives the exit code. */
export async function apply(paths: readonly string[], options: ApplyOptions): Promise<number> {
  const recipe = await readJson(options.recipe, 'a recipe', checkRecipe);
  if (extname(options.out).toLowerCase() === LAYERED && (options.space || options.depth || options.plain))
    throw new WrongUse(
      'A layered file keeps the picture’s own depth and colour space and carries nothing beside its pixels: leave out --space, --depth and --plain.',
    );
  const pictures = await flat(paths);
  const targets = await targetsOf(pictures, options.out);
  const codec = await openCodec();
  const progress = openProgress(pictures.length);
  let failed = 0;
  for (const [i, path] of pictures.entries()) {
    try {
      await applyOne(codec, path, targets[i], recipe, options);
    } catch (error) {
      failed++;
      progress.pause();
      tellTrouble(error, basename(path));
    }
    progress.step(basename(path));
  }
  progress.end();
  codec.close();
  return failed > 0 ? EXIT.unread : EXIT.done;
}

/** Folders by the pictures in them; what isn't there stays, to be told when its turn comes. */
async function flat(paths: readonly string[]): Promise<string[]> {
  const pictures: string[] = [];
  for (const path of paths) {
    const isFolder = await stat(path).then(
      (s) => s.isDirectory(),
      () => false,
    );
    const found = isFolder ? await picturesIn([path]) : [path];
    if (found.length === 0) throw new WrongUse(`There are no pictures in “${path}”.`);
    pictures.push(...found);
  }
  return pictures;
}

/** The format to write: by the ending, otherwise that of the picture. */
function formatOf(target: string, own: PictureFormat): EncodeOptions['format'] {
  const ending = extname(target).toLowerCase();
  if (ending in FORMATS) return FORMATS[ending];
  if (own !== 'gif') return own;
  throw new FileTrouble(
    'option',
    `“${basename(target)}” would be a GIF, which is only read here.`,
    'Give --out a name that ends in .png.',
  );
}

async function applyOne(
  codec: Codec,
  path: string,
  target: string,
  recipe: Recipe,
  options: ApplyOptions,
): Promise<void> {
  keepOriginal(target, path);
  const name = basename(path);
  const bytes = await readBytes(path, name);
  const decoded = await codec.decode(bytes, { name, limitMegapixels: options.limit });
  for (const note of decoded.notes) process.stderr.write(`${note}\n`);
  if (extname(target).toLowerCase() === LAYERED) {
    const places = guidePlaces(decoded);
    await writeAtomically(target, await editLayers(codec, { decoded, recipe, places }));
    process.stdout.write(`${target}\n`);
    return;
  }
  const space = options.space ? DELIVERY_SPACES[options.space] : decoded.raster.space;
  const depth = options.depth ? (Number(options.depth) as 8 | 16) : decoded.raster.depth;
  const format = formatOf(target, decoded.format);
  // A recipe that does nothing leaves the file as it is: a lossy format would change its pixels.
  const same = !options.space && !options.depth && !options.plain && format === decoded.format;
  const out =
    same && recipe.steps.every((step) => !step.on || step.strength === 0)
      ? bytes
      : await edit(codec, decoded, recipe, {
          space,
          depth,
          format,
          spaceName: options.space ?? null,
          plain: options.plain === true,
        });
  await writeAtomically(target, out);
  process.stdout.write(`${target}\n`);
}

/** Where each picture goes: a file for one, a folder for several. */
async function targetsOf(pictures: readonly string[], out: string): Promise<string[]> {
  const isFolder = await stat(out).then(
    (s) => s.isDirectory(),
    () => false,
  );
  const ending = extname(out).toLowerCase();
  const isFile = ending in FORMATS || ending === LAYERED;
  if (pictures.length === 1 && !isFolder && isFile) return [out];
  if (pictures.length > 1 && isFile && !isFolder)
    throw new WrongUse(`“${out}” is one file for ${pictures.length} pictures. Name a folder.`);
  if (!isFolder && ending !== '' && !isFile)
    throw new WrongUse(
      `“${out}”: files ending in ${ending} are not written here. Use .png, .jpg, .webp, .tif, .avif or .ora.`,
    );
  const folder = (await writableFolder(out))!;
  const names = pictures.map((path) => basename(path));
  const twin = names.find((name, i) => names.indexOf(name) !== i);
  if (twin)
    throw new WrongUse(`Two pictures are called “${twin}”. Edit them in two calls, into two folders.`);
  return names.map((name) =>
    join(folder, extname(name).toLowerCase() === '.gif' ? `${basename(name, extname(name))}.png` : name),
  );
}
