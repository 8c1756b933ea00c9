/** Test pictures on disk: made once in two workers, then only read. The same files are given away by `--export`. */
import { createHash } from 'node:crypto';
import { copyFile, mkdir, readdir, readFile, rename, writeFile } from 'node:fs/promises';
import { availableParallelism } from 'node:os';
import { basename, dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Worker } from 'node:worker_threads';
import { FINISHES, type Finish, finishPicture, type Plant, renderScene } from './picture.ts';
import { readMap, readPicture, writeMap, writePicture } from './png.ts';
import { SCENES, type SceneSpec } from './scenes.ts';
import { TRAINING } from './train/scenes.ts';
import { picturesWithoutLight } from './withoutLight.ts';

const here = dirname(fileURLToPath(import.meta.url));
const house = join(here, '..', '..', '..');

/** What a scene's JSON says beside its pictures. */
export interface SceneRecord extends SceneSpec {
  readonly width: number;
  readonly height: number;
  readonly plants: readonly Plant[];
  /** Rendered log-chromaticity, lit minus shade, mean over surfaces; null for neutral light. */
  readonly shift: { readonly x: number; readonly y: number; readonly surfaces: number } | null;
  readonly planted: { readonly neutral: readonly string[]; readonly opposite: readonly string[] };
}

/** Truth maps of one plant of a scene; see truth.ts for the codes. */
export interface TruthMaps {
  readonly labels: Uint8Array;
  readonly k: Uint8Array;
  readonly distance: Uint8Array;
}

export interface Store {
  readonly folder: string;
  record(spec: SceneSpec): Promise<SceneRecord>;
  picture(name: string): Promise<{ rgb: Float32Array; width: number; height: number }>;
  truth(name: string): Promise<TruthMaps>;
  /** Names and reasons of the pictures without evidence. */
  without(): Promise<{ name: string; why: string }[]>;
}

/** File stem of one picture of a scene. */
export const pictureName = (spec: SceneSpec, plant: Plant, finish: Finish) =>
  `${spec.name}.${plant}.${finish}`;

/** Makes what is missing under `.cache` (the folder's name is a hash of the generator) and opens it. */
export async function openStore(specs: readonly SceneSpec[] = SCENES): Promise<Store> {
  const folder = join(house, '.cache', 'light-scenes', await generatorHash());
  await mkdir(folder, { recursive: true });
  const there = new Set(await readdir(folder));
  const missing = specs.filter((s) => !there.has(`${s.name}.json`)).map((s) => s.name);
  if (!there.has('without.json')) missing.push('without');
  if (missing.length > 0) await make(folder, missing);
  return {
    folder,
    record: async (spec) => JSON.parse(await readFile(join(folder, `${spec.name}.json`), 'utf8')),
    picture: (name) => readPicture(join(folder, `${name}.png`)),
    async truth(name) {
      const rgb = await readMap(join(folder, `${name}.truth.png`), 3);
      const plane = (c: number) => Uint8Array.from({ length: rgb.length / 3 }, (_, i) => rgb[i * 3 + c]!);
      return { labels: plane(0), k: plane(1), distance: plane(2) };
    },
    without: async () => JSON.parse(await readFile(join(folder, 'without.json'), 'utf8')),
  };
}

/** Copies every file to a folder of the caller's, with a note on the codes. */
export async function exportStore(store: Store, to: string): Promise<void> {
  await mkdir(to, { recursive: true });
  for (const file of await readdir(store.folder)) await copyFile(join(store.folder, file), join(to, file));
  await writeFile(join(to, 'READ-ME.txt'), NOTE);
}

const NOTE = `SCENE.PLANT.FINISH.png  16-bit sRGB picture. PLANT: clean, neutral, opposite. FINISH: plain, jitter, brush.
SCENE.PLANT.truth.png   8 bit. Red: kind in the low three bits (0 edge, 1 lit, 2 half, 3 shade, 4 sky, 5 glow,
                        6 mirror, 7 out of the key's reach) + 8 object + 16 haze + 32 planted neutral
                        + 64 planted opposite. Green: share of the key that arrives, 255 = all.
                        Blue: distance of shade to the nearest lit part of the same reflectance, pixels;
                        255 = seen lit nowhere.
SCENE.json              size, light, rendered shift (lit minus shade, log-chromaticity), planted things.
no-*.png                pictures without evidence; without.json says why.
`;

async function make(folder: string, missing: readonly string[]): Promise<void> {
  const tasks = [...missing];
  let done = 0;
  const crew = Math.min(2, availableParallelism(), tasks.length);
  process.stderr.write(`Rendering ${missing.length} test scenes once into ${folder}\n`);
  await Promise.all(
    Array.from({ length: crew }, async () => {
      for (let name = tasks.shift(); name !== undefined; name = tasks.shift()) {
        await new Promise<void>((resolve, reject) => {
          const worker = new Worker(join(here, 'storeWorker.js'), { workerData: { folder, name } });
          worker.on('error', reject);
          worker.on('exit', (code) =>
            code === 0 ? resolve() : reject(new Error(`Rendering ${name} failed.`)),
          );
        });
        done++;
        process.stderr.write(`  ${done}/${missing.length} ${name}\n`);
      }
    }),
  );
}

/** Renders one scene (or the pictures without evidence) into the folder; its JSON comes last and tells that all is there. */
export async function makeOne(folder: string, name: string): Promise<void> {
  const finished = async (file: string, value: unknown) => {
    const part = join(folder, `.${file}.part`);
    await writeFile(part, JSON.stringify(value, null, 1));
    await rename(part, join(folder, file));
  };
  if (name === 'without') {
    const all = picturesWithoutLight();
    for (const p of all) await writePicture(join(folder, `${p.name}.png`), p.rgb, p.width, p.height);
    await finished(
      'without.json',
      all.map(({ name, why }) => ({ name, why })),
    );
    return;
  }
  const spec = [...SCENES, ...TRAINING].find((s) => s.name === name);
  if (!spec) throw new Error(`There is no scene ${name}.`);
  const scene = renderScene(spec);
  const { width, height, k } = scene;
  for (const plant of scene.pictures.keys()) {
    for (const finish of FINISHES)
      await writePicture(
        join(folder, `${pictureName(spec, plant, finish)}.png`),
        finishPicture(scene, plant, finish),
        width,
        height,
      );
    const truth = new Uint8Array(width * height * 3);
    const labels = scene.labels.get(plant)!;
    const distance = scene.distance.get(plant)!;
    for (let i = 0; i < width * height; i++) {
      truth[i * 3] = labels[i]!;
      truth[i * 3 + 1] = Math.round(255 * k[i]!);
      truth[i * 3 + 2] = distance[i]!;
    }
    await writeMap(join(folder, `${spec.name}.${plant}.truth.png`), truth, width, height);
  }
  const record: SceneRecord = {
    ...spec,
    width,
    height,
    plants: [...scene.pictures.keys()],
    shift: scene.shift,
    planted: scene.planted,
  };
  await finished(`${spec.name}.json`, record);
}

/** Hash over the sources that decide what the pictures look like. */
async function generatorHash(): Promise<string> {
  const sum = createHash('sha256');
  const source = join(house, 'bench', 'src', 'light');
  const own = ['kit.ts', 'scenes.ts', 'picture.ts', 'finish.ts', 'truth.ts', 'withoutLight.ts'];
  const files = [
    ...(await list(join(house, 'demo', 'src', 'scene'))),
    ...(await list(join(source, 'compose'))),
    ...own.map((f) => join(source, f)),
  ];
  for (const file of files) {
    sum.update(basename(file));
    sum.update(await readFile(file));
  }
  return sum.digest('hex').slice(0, 12);
}

async function list(folder: string): Promise<string[]> {
  return (await readdir(folder))
    .filter((f) => f.endsWith('.ts'))
    .sort()
    .map((f) => join(folder, f));
}
