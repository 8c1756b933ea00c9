/** Where painted pictures are kept, and whether they are there. */
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { mkdir, stat } from 'node:fs/promises';
import { join, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import sharp from 'sharp';
import { classFolder } from './class/twelve.ts';
import { type PaintOptions, paintVersions, SEED } from './ferry/paint.ts';
import type { Mask, Truth } from './ferry/truth.ts';
import { pictureName, writeWhole } from './files.ts';
import { layeredFile } from './layered.ts';

/** Folders whose files decide what the pictures look like. */
const GENERATOR = ['ferry', 'paint', 'scene'];

export interface FolderOptions extends PaintOptions {
  /** Where to write. Default: `.cache/demo/HASH-of-generator-and-size` in the repository. */
  readonly out?: string;
  readonly width?: number;
  readonly height?: number;
  readonly versions?: readonly number[];
}

/** The layered file of version 4. */
const LAYERED_NAME = 'ferry-landing-4.ora';

/**
 * The folder with the five versions as PNG files and the class of twelve, painted first where they are missing. Every file is written under
 * another name and then renamed, so that a broken-off run leaves nothing half done.
 */
export async function demoFolder(options: FolderOptions = {}): Promise<string> {
  const { width = 2400, height = 1500, versions = [1, 2, 3, 4, 5], seed = SEED } = options;
  const folder =
    options.out ?? join(repository(), '.cache', 'demo', `${generatorHash()}-${seed}-${width}x${height}`);
  await mkdir(folder, { recursive: true }).catch((error: Error) => {
    throw new Error(`Cannot make the folder ${folder} (${error.message}). Choose another one.`);
  });
  const missing: number[] = [];
  for (const v of versions) if (!(await isThere(join(folder, pictureName(v))))) missing.push(v);
  if (missing.length > 0) await paintMissing(folder, missing, width, height, options);
  if (versions.includes(4)) await addLayered(folder, width, height);
  // The class takes from every version.
  if ([1, 2, 3, 4, 5].every((version) => versions.includes(version))) await classFolder(folder);
  return folder;
}

async function paintMissing(
  folder: string,
  missing: readonly number[],
  width: number,
  height: number,
  options: FolderOptions,
): Promise<void> {
  for await (const p of paintVersions(missing, width, height, options)) {
    await writeTruth(folder, p.version, p.truth);
    const raw = { width, height, channels: 3 as const };
    // Carries an sRGB profile, so that no reader has to guess.
    const png = await sharp(p.pixels, { raw }).png({ compressionLevel: 6 }).withIccProfile('srgb').toBuffer();
    await writeWhole(join(folder, pictureName(p.version)), png);
  }
}

/** The layered file of version 4 beside its picture. */
async function addLayered(folder: string, width: number, height: number): Promise<void> {
  const path = join(folder, LAYERED_NAME);
  if (await isThere(path)) return;
  const painting = await sharp(join(folder, pictureName(4)))
    .raw()
    .toBuffer();
  await writeWhole(path, await layeredFile(painting, width, height));
}

/** Hash of the generator's sources (or of the built files where only these are). */
export function generatorHash(): string {
  const here = fileURLToPath(new URL('.', import.meta.url));
  const source = here.endsWith(`${sep}dist${sep}`) ? join(here, '..', 'src') : here;
  const hash = createHash('sha256');
  for (const part of GENERATOR) {
    const folder = join(source, part);
    for (const name of readdirSync(folder).sort()) {
      if (!name.endsWith('.ts') && !name.endsWith('.js')) continue;
      hash.update(name).update(readFileSync(join(folder, name)));
    }
  }
  return hash.digest('hex').slice(0, 12);
}

const repository = () => fileURLToPath(new URL('../..', import.meta.url));

async function isThere(path: string): Promise<boolean> {
  return stat(path).then(
    (s) => s.size > 0,
    () => false,
  );
}

async function writeTruth(folder: string, version: number, truth: Truth): Promise<void> {
  const stem = pictureName(version).replace('.png', '');
  const files: Record<string, string> = {};
  for (const [name, mask] of Object.entries(truth.masks)) {
    files[name] = `${stem}.${name}.png`;
    await writeWhole(join(folder, files[name]), await greyPng(mask));
  }
  await writeWhole(
    join(folder, `${stem}.truth.json`),
    `${JSON.stringify({ ...truth.facts, masks: files }, null, 2)}\n`,
  );
}

function greyPng(mask: Mask): Promise<Buffer> {
  return sharp(mask.data, { raw: { width: mask.width, height: mask.height, channels: 1 } })
    .toColourspace('b-w')
    .png()
    .toBuffer();
}
