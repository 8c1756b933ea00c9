import { mkdtemp, readdir, readFile, rm, stat } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { pictureName } from '../src/files.ts';
import { demoFolder, generatorHash } from '../src/folder.ts';

let out: string;
const options = () => ({ out, width: 80, height: 50, versions: [3, 5], workers: 0 });

beforeAll(async () => {
  out = await mkdtemp(join(tmpdir(), 'halflight-demo-'));
  await demoFolder(options());
}, 120_000);
afterAll(() => rm(out, { recursive: true, force: true }));

it('writes tagged pictures with their truth, and leaves nothing half done', async () => {
  const names = await readdir(out);
  expect(names.filter((n) => n.endsWith('.part'))).toEqual([]);
  const meta = await sharp(join(out, pictureName(5))).metadata();
  expect([meta.width, meta.height, meta.channels, meta.depth]).toEqual([80, 50, 3, 'uchar']);
  expect(meta.icc?.length).toBeGreaterThan(100);
  const truth = JSON.parse(await readFile(join(out, 'ferry-landing-3.truth.json'), 'utf8'));
  expect(truth.version).toBe(3);
  expect(truth.planted.closed).toBeCloseTo(0.07);
  for (const file of Object.values(truth.masks) as string[]) expect(names).toContain(file);
  const mask = await sharp(join(out, truth.masks.opposite)).metadata();
  expect(mask.channels).toBe(1);
});

it('does nothing when everything is there', async () => {
  const path = join(out, pictureName(5));
  const before = (await stat(path)).mtimeMs;
  expect(await demoFolder(options())).toBe(out);
  expect((await stat(path)).mtimeMs).toBe(before);
});

it('names the folder after the generator', () => {
  expect(generatorHash()).toMatch(/^[0-9a-f]{12}$/);
  expect(generatorHash()).toBe(generatorHash());
});
