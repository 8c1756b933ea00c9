import { execFileSync } from 'node:child_process';
import { chmod, mkdir, mkdtemp, readdir, readFile, rm, stat, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { openCodec, readPicture, writeAtomically } from '../../src/node/index.ts';
import { makePng, RGB } from '../made/png.ts';

const folder = await mkdtemp(join(tmpdir(), 'halflight-paths-'));
const codec = await openCodec();
afterAll(async () => {
  codec.close();
  await rm(folder, { recursive: true, force: true });
});

const dot = makePng({ width: 1, height: 1, bits: 8, type: RGB, samples: [1, 2, 3] });
const at = (name: string) => join(folder, name);
const read = (name: string) => readPicture(at(name), { codec });

describe('reading', () => {
  test('a picture, with its name and through a link', async () => {
    await writeFile(at('Fähre 4.png'), dot);
    await symlink(at('Fähre 4.png'), at('link.png'));
    expect((await read('Fähre 4.png')).facts.name).toBe('Fähre 4.png');
    expect(Array.from((await read('link.png')).raster.data)).toEqual([1, 2, 3]);
  });
  test('a missing file', async () => {
    await expect(read('none.png')).rejects.toMatchObject({ kind: 'missing' });
    await expect(read('Fähre 4.png/inside.png')).rejects.toMatchObject({ kind: 'missing' });
  });
  test('a folder', async () => {
    await mkdir(at('versions'));
    await expect(read('versions')).rejects.toMatchObject({ kind: 'folder' });
  });
  test('an empty file', async () => {
    await writeFile(at('empty.png'), '');
    await expect(read('empty.png')).rejects.toMatchObject({ kind: 'empty' });
  });
  test.skipIf(process.platform === 'win32')('a pipe does not hang', async () => {
    execFileSync('mkfifo', [at('pipe.png')]);
    await expect(read('pipe.png')).rejects.toMatchObject({ kind: 'not-a-picture' });
  });
  test('no permission', async () => {
    await writeFile(at('locked.png'), dot, { mode: 0 });
    // The administrator may read everything: look as somebody else ("nobody" on most systems).
    const administrator = process.getuid?.() === 0;
    if (administrator) process.seteuid?.(65534);
    try {
      await expect(read('locked.png')).rejects.toMatchObject({ kind: 'permission' });
    } finally {
      if (administrator) process.seteuid?.(0);
    }
  });
});

describe('writing', () => {
  test('new and over an old file, whose permissions stay', async () => {
    await writeAtomically(at('out.bin'), Uint8Array.of(1));
    await chmod(at('out.bin'), 0o640);
    await writeAtomically(at('out.bin'), Uint8Array.of(2, 3));
    expect(Array.from(await readFile(at('out.bin')))).toEqual([2, 3]);
    expect((await stat(at('out.bin'))).mode & 0o777).toBe(0o640);
  });
  test('trouble leaves nothing behind and the old file as it was', async () => {
    await mkdir(at('full'), { recursive: true });
    await expect(writeAtomically(at('full'), dot)).rejects.toMatchObject({ kind: 'folder' });
    await expect(writeAtomically(at('nowhere/out.png'), dot)).rejects.toMatchObject({
      kind: 'write',
      sentence: expect.stringMatching(/folder does not exist/),
    });
    await expect(writeAtomically(at('x'.repeat(300)), dot)).rejects.toMatchObject({ kind: 'write' });
    expect((await readdir(folder)).filter((name) => name.endsWith('.part'))).toEqual([]);
  });
  test('a reader never sees a half-written file', async () => {
    const [a, b] = [1, 2].map((v) => new Uint8Array(300_000).fill(v));
    await writeAtomically(at('busy.bin'), a);
    const writing = (async () => {
      for (let i = 0; i < 20; i++) await writeAtomically(at('busy.bin'), i % 2 ? a : b);
    })();
    for (let i = 0; i < 60; i++) {
      const seen = await readFile(at('busy.bin'));
      expect(seen.length).toBe(300_000);
      expect(seen.every((v) => v === seen[0])).toBe(true);
    }
    await writing;
  });
});
