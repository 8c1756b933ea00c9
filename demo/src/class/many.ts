/** Large classes for tests and the bench: seeded crops, mirrors and recolourings of the painted versions. */
import { existsSync } from 'node:fs';
import { mkdir } from 'node:fs/promises';
import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { writeWhole } from '../files.ts';
import { profileSegment, withSegment } from './profile.ts';
import type { Codes } from './vary.ts';

export interface ManyOptions {
  /** Painted pictures that they are made of, in turn. */
  readonly sources: readonly string[];
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
  const { out, count, sources } = options;
  await mkdir(out, { recursive: true });
  const names = Array.from({ length: count }, (_, k) => `work-${String(k + 1).padStart(4, '0')}.jpg`);
  const open = names.map((name, k) => ({ path: join(out, name), k })).filter(({ path }) => !existsSync(path));
  if (open.length > 0) {
    const paintings = await Promise.all(sources.map(opened));
    const profile = await profileSegment();
    const hand = async (): Promise<void> => {
      for (let next = open.shift(); next; next = open.shift())
        await make(next.path, next.k, paintings[next.k % paintings.length], profile, options);
    };
    await Promise.all(Array.from({ length: availableParallelism() }, hand));
  }
  return names.map((name) => join(out, name));
}

/** Paintings are opened once: what differs is made of their code values. */
async function opened(path: string): Promise<Codes> {
  const { data, info } = await sharp(path).removeAlpha().raw().toBuffer({ resolveWithObject: true });
  return { data: new Uint8Array(data), width: info.width, height: info.height };
}

async function make(
  path: string,
  k: number,
  painting: Codes,
  profile: Uint8Array,
  { megapixels: [from, to], brokenEach, seed = 9 }: ManyOptions,
): Promise<void> {
  const random = seeded(seed * 65536 + k);
  const side = 0.55 + 0.4 * random();
  const [w, h] = [Math.floor(side * painting.width), Math.floor(side * painting.height)];
  const left = Math.floor(random() * (painting.width - w));
  const top = Math.floor(random() * (painting.height - h));
  const size = 1e6 * (from + (to - from) * random());
  const width = Math.round(Math.sqrt((size * w) / h));
  const mirrored = random() < 0.5;
  const gain = 0.75 + 0.5 * random();
  const gains = [0, 1, 2].map(() => gain * (0.88 + 0.24 * random()));
  const part = partOf(painting, { left, top, width: w, height: h }, gains);
  const pipe = sharp(part, { raw: { width: w, height: h, channels: 3 } }).flop(mirrored);
  const bytes = withSegment(
    await pipe
      .resize(width, Math.round(size / width), { kernel: 'linear', fit: 'fill' })
      .jpeg({ quality: 88 })
      .toBuffer(),
    profile,
  );
  const broken = (k + 1) % brokenEach === 0;
  await writeWhole(path, broken ? bytes.subarray(0, bytes.length >> 1) : bytes);
}

/** A part of a painting with its channels multiplied: before it is enlarged, where it has the fewest pixels. */
function partOf(
  { data, width }: Codes,
  part: { readonly left: number; readonly top: number; readonly width: number; readonly height: number },
  gains: readonly number[],
): Uint8Array {
  const tables = gains.map((gain) => Uint8Array.from({ length: 256 }, (_, v) => Math.min(255, gain * v)));
  const out = new Uint8Array(3 * part.width * part.height);
  for (let y = 0, o = 0; y < part.height; y++) {
    let i = 3 * ((part.top + y) * width + part.left);
    for (const end = o + 3 * part.width; o < end; o += 3, i += 3) {
      out[o] = tables[0][data[i]];
      out[o + 1] = tables[1][data[i + 1]];
      out[o + 2] = tables[2][data[i + 2]];
    }
  }
  return out;
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
