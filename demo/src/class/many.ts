/** Large classes for tests and the bench: seeded crops, mirrors and recolourings of the painted versions. */
import { existsSync } from 'node:fs';
import { mkdir } from 'node:fs/promises';
import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import sharp, { type OutputInfo } from 'sharp';
import { writeWhole } from '../files.ts';

export interface ManyOptions {
  /** A painted picture that they are made of. */
  readonly source: string;
  readonly out: string;
  readonly count: number;
  /** Size of the works, from and to. */
  readonly megapixels: readonly [number, number];
  /** Every so-many-eth file is cut off. */
  readonly brokenEach: number;
  readonly seed?: number;
}

/** Writes the works that are missing; gives their paths, sorted by name. */
export async function manyWorks(options: ManyOptions): Promise<string[]> {
  const { out, count } = options;
  await mkdir(out, { recursive: true });
  const names = Array.from({ length: count }, (_, k) => `work-${String(k + 1).padStart(4, '0')}.jpg`);
  const open = names.map((name, k) => ({ path: join(out, name), k })).filter(({ path }) => !existsSync(path));
  const painting = await sharp(options.source).removeAlpha().raw().toBuffer({ resolveWithObject: true });
  const hand = async (): Promise<void> => {
    for (let next = open.shift(); next; next = open.shift()) await make(next.path, next.k, painting, options);
  };
  await Promise.all(Array.from({ length: availableParallelism() }, hand));
  return names.map((name) => join(out, name));
}

async function make(
  path: string,
  k: number,
  { data, info }: { data: Buffer; info: OutputInfo },
  { megapixels: [from, to], brokenEach, seed = 9 }: ManyOptions,
): Promise<void> {
  const random = seeded(seed * 65536 + k);
  const side = 0.55 + 0.4 * random();
  const [w, h] = [Math.floor(side * info.width), Math.floor(side * info.height)];
  const left = Math.floor(random() * (info.width - w));
  const top = Math.floor(random() * (info.height - h));
  const size = 1e6 * (from + (to - from) * random());
  const width = Math.round(Math.sqrt((size * w) / h));
  let pipe = sharp(data, { raw: { width: info.width, height: info.height, channels: 3 } })
    .extract({ left, top, width: w, height: h })
    .resize(width, Math.round(size / width), { kernel: 'cubic', fit: 'fill' });
  if (random() < 0.5) pipe = pipe.flop();
  const gain = 0.75 + 0.5 * random();
  const [r, g, b] = [0, 1, 2].map(() => gain * (0.88 + 0.24 * random()));
  const bytes = await pipe
    .linear([r, g, b], [0, 0, 0])
    .jpeg({ quality: 88 })
    .withIccProfile('srgb')
    .toBuffer();
  const broken = (k + 1) % brokenEach === 0;
  await writeWhole(path, broken ? bytes.subarray(0, bytes.length >> 1) : bytes);
}

/** Linear congruential generator of Numerical Recipes (2nd edition, 1992). */
function seeded(seed: number): () => number {
  let state = seed >>> 0;
  const next = (): number => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
  for (let k = 0; k < 8; k++) next();
  return next;
}
