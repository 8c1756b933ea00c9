import { mkdtemp, readdir, readFile, rm, stat } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { manyWorks } from '../../src/class/many.ts';
import { classFolder, TWELVE } from '../../src/class/twelve.ts';
import { pictureName } from '../../src/files.ts';

let painted: string;
let folder: string;

beforeAll(async () => {
  painted = await mkdtemp(join(tmpdir(), 'halflight-class-'));
  // Stand-ins for the painted versions.
  const data = Buffer.from(Array.from({ length: 3 * 120 * 75 }, (_, i) => (i * 37 + (i >> 5) * 11) % 200));
  for (const version of [1, 2, 3, 4, 5])
    await sharp(data, { raw: { width: 120, height: 75, channels: 3 } })
      .png()
      .toFile(join(painted, pictureName(version)));
  folder = await classFolder(painted);
});
afterAll(() => rm(painted, { recursive: true, force: true }));

it('has twelve works, ten of which can be read, and a list for the app', async () => {
  const list = JSON.parse(await readFile(join(folder, 'index.json'), 'utf8'));
  expect(list.map(({ file }: { file: string }) => file)).toEqual(TWELVE.map(({ file }) => file));
  const files = (await readdir(folder)).filter((name) => !/^\.|index\.json/.test(name));
  expect(files).toHaveLength(12);
  const readable = await Promise.all(
    files.map((file) =>
      sharp(join(folder, file), { failOn: 'warning' })
        .raw()
        .toBuffer()
        .then(
          () => true,
          () => false,
        ),
    ),
  );
  expect(readable.filter(Boolean)).toHaveLength(10);
});

it('is made once, and says what was planted', async () => {
  const before = (await stat(join(folder, TWELVE[0].file))).mtimeMs;
  await classFolder(painted);
  expect((await stat(join(folder, TWELVE[0].file))).mtimeMs).toBe(before);
  for (const { fault } of TWELVE) expect(fault).not.toBe('');
});

it('makes large classes, the same for the same seed, some of them broken', async () => {
  const make = (out: string) =>
    manyWorks({
      sources: [2, 5].map((version) => join(painted, pictureName(version))),
      out: join(painted, out),
      count: 4,
      megapixels: [0.01, 0.02],
      brokenEach: 4,
    });
  const [a, b] = [await make('a'), await make('b')];
  expect(a).toHaveLength(4);
  for (const [k, path] of a.entries()) expect(await readFile(path)).toEqual(await readFile(b[k]));
  await expect(sharp(a[3], { failOn: 'warning' }).raw().toBuffer()).rejects.toThrow();
  const { width, height, icc } = await sharp(a[0]).metadata();
  expect(width * height).toBeGreaterThan(9000);
  // As the imaging library itself attaches it.
  const tagged = await sharp(join(painted, pictureName(5)))
    .withIccProfile('srgb')
    .jpeg()
    .toBuffer();
  expect(icc).toEqual((await sharp(tagged).metadata()).icc);
});
