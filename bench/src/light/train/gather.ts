/**
 * `npm run train:light -- DIR`: reads every picture of the training scenes and writes down what was weighed, with the
 * truth, for `fit.py`, which makes the numbers from it.
 *
 * DIR/NAME.pieces.bin: Float32, a row for each piece: its signs, then its area by truth (planted neutral shade, planted
 * opposite shade, half tones of what is planted, all else), per mille of the picture. DIR/NAME.json: the directions.
 */
import { existsSync } from 'node:fs';
import { mkdir, rename, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { isMainThread, Worker, workerData } from 'node:worker_threads';
import { type LightIntent, type LightResult, readLight } from '@halflight/engine';
import { trueLightOf } from '../declared.ts';
import { FINISHES } from '../picture.ts';
import { openStore, pictureName, type TruthMaps } from '../store.ts';
import * as T from '../truth.ts';
import { panelPictures } from './panels.ts';
import { TRAINING } from './scenes.ts';

const CREW = 2;
/** Kinds of truth that the area of a piece is shared among. */
const KINDS = 4;
/** In the key from here on a planted thing shows its true colour. */
const FULLY_LIT = 0.6 * 255;

if (isMainThread) {
  const folder = process.argv[2];
  if (!folder) throw new Error('Name a folder: npm run train:light -- DIR');
  await mkdir(folder, { recursive: true });
  await openStore(TRAINING);
  for (let part = 0; part < CREW; part++)
    new Worker(fileURLToPath(import.meta.url), { workerData: { folder, part } });
} else await gather(workerData.folder, workerData.part);

async function gather(folder: string, part: number): Promise<void> {
  const store = await openStore(TRAINING);
  for (const [i, spec] of TRAINING.entries()) {
    if (i % CREW !== part) continue;
    const { plants, shift } = await store.record(spec);
    for (const plant of plants) {
      const truth = await store.truth(`${spec.name}.${plant}`);
      for (const finish of FINISHES) {
        const name = pictureName(spec, plant, finish);
        const about = { name, plant, finish, scene: spec.name, truth: shift };
        if (!existsSync(join(folder, `${name}.declared.json`)))
          await weigh(folder, about, await store.picture(name), truth, trueLightOf(name));
      }
    }
  }
  if (part > 0) return;
  for (const panels of panelPictures()) {
    const { name, plant, finish, shift, light } = panels;
    const about = { name, plant, finish, scene: name.slice(0, name.indexOf('.')), truth: shift };
    await weigh(folder, about, panels, panels, light);
  }
}

interface About {
  readonly name: string;
  readonly plant: string;
  readonly finish: string;
  readonly scene: string;
  /** Log-chromaticity, lit minus shade. */
  readonly truth: { readonly x: number; readonly y: number } | null;
}

/** Reads one picture, its light read and declared, and writes down what was weighed. */
async function weigh(
  folder: string,
  about: About,
  { rgb, width, height }: { rgb: Float32Array; width: number; height: number },
  truth: Pick<TruthMaps, 'labels' | 'k'>,
  light: LightIntent | null,
): Promise<void> {
  for (const how of ['read', 'declared'] as const) {
    const file = join(folder, `${about.name}.${how}`);
    const ways: unknown[] = [];
    let rows: Weighed | null = null;
    const result = readLight(
      { rgb, width, height, alpha: null, scale: 1 },
      {
        light: how === 'declared' ? light : null,
        watch: {
          directions: (tried) => ways.push(tried.map(({ signs, shift }) => ({ signs, shift }))),
          pieces: (pieces, { values }) => {
            rows = { of: pieces.of, values, count: pieces.count };
          },
        },
      },
    );
    if (rows) await writeFile(`${file}.pieces.bin`, table(rows, result, truth));
    const note = { ...about, how, said: result.shift, ways };
    await writeFile(`${file}.part`, JSON.stringify(note));
    await rename(`${file}.part`, `${file}.json`);
  }
}

interface Weighed {
  readonly of: Int32Array;
  readonly values: Float32Array;
  readonly count: number;
}

function table(
  { of, values, count }: Weighed,
  { trace }: LightResult,
  truth: Pick<TruthMaps, 'labels' | 'k'>,
): Float32Array {
  const width = values.length / count;
  const out = new Float32Array(count * (width + KINDS));
  for (let p = 0; p < count; p++) out.set(values.subarray(p * width, (p + 1) * width), p * (width + KINDS));
  const share = 1000 / truth.labels.length;
  for (let i = 0; i < truth.labels.length; i++) {
    const region = trace.regionOf[i]!;
    const piece = region < 0 ? -1 : of[region]!;
    const kind = kindOf(truth.labels[i]!, truth.k[i]!);
    if (piece >= 0 && kind >= 0) out[piece * (width + KINDS) + width + kind]! += share;
  }
  return out;
}

function kindOf(label: number, k: number): number {
  const what = label & T.KIND;
  if (what === T.EDGE) return -1;
  const half = what === T.HALF || what === T.LIT;
  if (label & T.NEUTRAL) return what === T.SHADE ? 0 : half && k < FULLY_LIT ? 2 : 3;
  if (label & T.OPPOSITE) return what === T.SHADE ? 1 : half ? 2 : 3;
  return 3;
}
