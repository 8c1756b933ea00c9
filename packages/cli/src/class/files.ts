import { readdir } from 'node:fs/promises';
import { extname, join } from 'node:path';
import { byFileName } from '@halflight/engine';
import { isPictureName } from '../baseline/pictures.ts';
import { reasonOf } from '../inputs.ts';
import { WrongUse } from '../trouble.ts';

/** Pictures that can't be read here, but which students do send: each is told how to come again. */
const ALSO = new Set(['.heic', '.heif', '.bmp', '.jxl', '.jp2', '.psd', '.exr', '.tga']);

/** The works in a folder, sorted by name; folders inside are not looked into. */
export async function worksIn(folder: string): Promise<string[]> {
  const found = await readdir(folder, { withFileTypes: true }).catch((error) => {
    throw new WrongUse(`The folder “${folder}” can’t be read: ${reasonOf(error)}.`);
  });
  const works = found.filter(
    (entry) =>
      !entry.isDirectory() &&
      !entry.name.startsWith('.') &&
      (isPictureName(entry.name) || ALSO.has(extname(entry.name).toLowerCase())),
  );
  if (works.length === 0) {
    const inside = found.some((entry) => entry.isDirectory());
    throw new WrongUse(
      `There are no pictures in “${folder}”.${inside ? ' Folders inside are not looked into: put the works beside each other.' : ''}`,
    );
  }
  return works.map(({ name }) => join(folder, name)).sort(byFileName);
}

/** Which part of how many: "2/8". */
export interface Part {
  readonly k: number;
  readonly n: number;
}

/** Every n-th work from the k-th on: names that follow each other are often alike in size. */
export function partOf(works: readonly string[], part: Part | null): string[] {
  return part === null ? [...works] : works.filter((_, i) => i % part.n === part.k - 1);
}
