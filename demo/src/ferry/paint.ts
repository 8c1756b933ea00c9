/** The ferry landing as pixels: casts the scene once and paints the wanted versions from it. */
import { joinRows, type Passes } from '../scene/index.ts';
import type { Job } from './jobs.ts';
import { openPool, type Pool } from './pool.ts';
import { type Study, studyOf, studySize } from './study.ts';
import type { Truth } from './truth.ts';

/** The evening that the five versions show. Other seeds give other skies, tides and nets. */
export const SEED = 6;

/** A painted version: 8-bit sRGB, interleaved, and what is known of it. */
export interface Painted {
  readonly version: number;
  readonly width: number;
  readonly height: number;
  readonly pixels: Uint8Array;
  readonly truth: Truth;
}

export interface PaintOptions {
  readonly seed?: number;
  /** Worker threads; 0 does everything on this one. Default 2. */
  readonly workers?: number;
  readonly onProgress?: (what: string, share: number) => void;
}

/**
 * Paints one version (1 to 5) at a size in pixels. The same arguments give the same pixels on every machine.
 *
 * Throws a RangeError for another version or an empty size.
 */
export async function paintFerryLanding(
  version: number,
  width: number,
  height: number,
  options: PaintOptions = {},
): Promise<Painted> {
  for await (const painted of paintVersions([version], width, height, options)) return painted;
  throw new RangeError('No version was asked for.');
}

/** Paints versions one after the other from one cast of the scene. */
export async function* paintVersions(
  versions: readonly number[],
  width: number,
  height: number,
  options: PaintOptions = {},
): AsyncGenerator<Painted> {
  if (!(width >= 16 && height >= 16))
    throw new RangeError(`A painting needs at least 16 × 16 pixels, not ${width} × ${height}.`);
  const { seed = SEED, workers = 2, onProgress } = options;
  const pool = openPool(workers);
  try {
    const study = await castStudy(pool, seed, width, height, onProgress);
    // Each worker plans a version for itself; with several versions each takes whole ones.
    const whole = versions.length > 1 || studySize(width, height).study[0] === width;
    const half = Math.round(height * 0.56);
    const jobs: Job[] = versions.flatMap((version) => {
      const rows: [number, number][] =
        whole || workers < 2
          ? [[0, height]]
          : [
              [0, half],
              [half, height],
            ];
      return rows.map(
        (r, i): Job => ({ kind: 'paint', job: { study, version, width, height, rows: r, truth: i === 0 } }),
      );
    });
    const per = jobs.length / versions.length;
    // In rounds, so that no more than one picture a worker is in memory.
    const round = whole ? Math.max(1, workers) : jobs.length;
    for (let at = 0; at < jobs.length; at += round) {
      const results = await pool.run(jobs.slice(at, at + round), (n) =>
        onProgress?.('strokes', (at + n) / jobs.length),
      );
      for (let k = 0; k < results.length; k += per) {
        const parts = results.slice(k, k + per).map((r) => {
          if (r.kind !== 'paint') throw new TypeError('A worker answered with something else than paint.');
          return r;
        });
        const pixels = new Uint8Array(width * height * 3);
        let offset = 0;
        for (const part of parts) {
          pixels.set(part.pixels, offset);
          offset += part.pixels.length;
        }
        yield { version: versions[(at + k) / per]!, width, height, pixels, truth: parts[0]!.truth! };
      }
    }
  } finally {
    await pool.close();
  }
}

/** Casts both sizes in bands and joins them to the study, in shared memory. */
async function castStudy(
  pool: Pool,
  seed: number,
  width: number,
  height: number,
  onProgress?: PaintOptions['onProgress'],
): Promise<Study> {
  const size = studySize(width, height);
  const bands = (dims: [number, number], lit: boolean, count: number): Job[] =>
    Array.from({ length: count }, (_, b): Job => {
      const rows: [number, number] = [
        Math.round((b * dims[1]) / count),
        Math.round(((b + 1) * dims[1]) / count),
      ];
      return { kind: 'cast', job: { seed, width: dims[0], height: dims[1], rows, lit } };
    });
  const few = width < 700 ? 1 : 4;
  const jobs = [...bands(size.lit, true, few), ...bands(size.study, false, few)];
  const results = await pool.run(jobs, (n) => onProgress?.('scene', n / jobs.length));
  const parts = results.map((r) => {
    if (r.kind !== 'cast') throw new TypeError('A worker answered with something else than a cast.');
    return r.passes;
  });
  const join = (p: Passes[]) => joinRows(p);
  return shared(studyOf(join(parts.slice(few)), join(parts.slice(0, few)), seed));
}

/** The same study in memory that workers can read without a copy. */
function shared(study: Study): Study {
  const out: Record<string, unknown> = { ...study };
  for (const [name, value] of Object.entries(study)) {
    if (!(value instanceof Float32Array || value instanceof Int32Array)) continue;
    const Kind = value.constructor as typeof Float32Array;
    const copy = new Kind(new SharedArrayBuffer(value.byteLength));
    copy.set(value);
    out[name] = copy;
  }
  return out as unknown as Study;
}
