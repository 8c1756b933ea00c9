import { basename, extname } from 'node:path';
import { readBytes } from '@halflight/files/node';
import { bytesSource, type OpenRaster, openOpenRaster, stackOfPictures } from '@halflight/files/openraster';
import { WrongUse } from '../trouble.ts';

/** How layers that come as pictures meet; each by the name of its file, with or without its ending. */
export interface StackOptions {
  readonly mode?: readonly (readonly [string, string])[];
  readonly opacity?: readonly (readonly [string, string])[];
  readonly hidden?: readonly string[];
  /** The picture of all layers together. */
  readonly flat?: string;
  /** Megapixels. */
  readonly limit: number;
}

/** A layered picture, and whether its layers were given one by one. */
export type GivenStack = OpenRaster & { readonly given: boolean };

/**
 * Opens a layered file, or takes pictures as layers, the first lowest.
 *
 * @throws FileTrouble
 * @throws WrongUse when files and options do not fit together
 */
export async function openStack(paths: readonly string[], options: StackOptions): Promise<GivenStack> {
  const [first] = paths;
  const layered = paths.find((path) => extname(path).toLowerCase() === '.ora');
  if (layered !== undefined) {
    if (paths.length > 1)
      throw new WrongUse(`“${layered}” is a layered file: give it alone, or PNGs of one size without it.`);
    if (options.mode?.length || options.opacity?.length || options.hidden?.length || options.flat)
      throw new WrongUse(
        '--mode, --opacity, --hidden and --flat are for layers given as PNGs. Leave them out.',
      );
    return { ...(await openLayered(first, options.limit)), given: false };
  }
  if (paths.length === 1)
    throw new WrongUse(
      `“${first}” has no layers. Give a layered .ora file, several PNGs of one size with the lowest first, or --without and the picture without a layer.`,
    );
  const names = paths.map((path) => basename(path, extname(path)));
  const known = (text: string): string => {
    const name = basename(text, extname(text).toLowerCase() === '.png' ? extname(text) : '');
    if (names.includes(name)) return name;
    throw new WrongUse(`None of the layers is called “${text}”. They are: ${names.join(', ')}.`);
  };
  const modes = new Map(options.mode?.map(([name, mode]) => [known(name), mode]));
  const opacities = new Map(options.opacity?.map(([name, value]) => [known(name), Number(value)]));
  const hidden = new Set(options.hidden?.map(known));
  const pictures = await Promise.all(
    paths.map(async (path, i) => ({
      name: names[i],
      bytes: new Uint8Array(await readBytes(path, basename(path))),
      mode: modes.get(names[i]),
      opacity: opacities.get(names[i]),
      visible: !hidden.has(names[i]),
    })),
  );
  const flat =
    options.flat === undefined ? null : new Uint8Array(await readBytes(options.flat, basename(options.flat)));
  return { ...stackOfPictures(`${paths.length} pictures`, pictures, flat, options.limit), given: true };
}

/**
 * Opens a layered file.
 *
 * @throws FileTrouble
 */
export async function openLayered(path: string, limitMegapixels: number): Promise<OpenRaster> {
  const name = basename(path);
  return openOpenRaster(bytesSource(await readBytes(path, name), name), limitMegapixels);
}
