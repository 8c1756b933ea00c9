import { readdir, stat } from 'node:fs/promises';
import { basename, extname, join } from 'node:path';
import { reasonOf } from '../inputs.ts';
import { WrongUse } from '../trouble.ts';

/** Endings of files that pictures are saved as; in a folder others are passed over. */
const ENDINGS = new Set(['.png', '.jpg', '.jpeg', '.webp', '.tif', '.tiff', '.avif', '.gif']);

/** Whether a file in a folder is taken for a picture: by its ending, and hidden files never. */
export function isPictureName(path: string): boolean {
  return !basename(path).startsWith('.') && ENDINGS.has(extname(path).toLowerCase());
}

/** Pictures as they are, folders by the pictures in them, in the order of their names. */
export async function picturesIn(paths: readonly string[]): Promise<string[]> {
  const pictures: string[] = [];
  for (const path of paths) {
    const facts = await stat(path).catch((error) => {
      throw new WrongUse(`“${path}” can’t be read: ${reasonOf(error)}.`);
    });
    if (!facts.isDirectory()) pictures.push(path);
    else
      for (const name of (await readdir(path)).sort()) {
        if (isPictureName(name)) pictures.push(join(path, name));
      }
  }
  return pictures;
}
