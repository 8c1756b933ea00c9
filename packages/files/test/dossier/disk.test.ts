import { spawnSync } from 'node:child_process';
import { chmodSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { type FileHandle, open as openFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { openDossierFile, saveDossierFile } from '../../src/node/index.ts';
import { FileTrouble } from '../../src/trouble.ts';
import { draft, first, noise, readings, sha256, thing, version, work } from './samples.ts';

let folder: string;
let path: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'halflight-dossier-'));
  path = join(folder, 'ferry.halflight');
});
afterEach(() => {
  vi.restoreAllMocks();
  chmodSync(folder, 0o755);
  rmSync(folder, { recursive: true, force: true });
});

const second = noise(7000, 2);
const next = { ...work, versions: [...work.versions, version(second, { number: 2 })] };

async function addSecond(): Promise<void> {
  const older = await openDossierFile(path);
  try {
    await saveDossierFile(path, { ...draft, older, work: next, things: [thing(second)] });
  } finally {
    await older.close();
  }
}

/** Number of versions in the dossier on the disk, which must be whole. */
async function versionsThere(): Promise<number> {
  const dossier = await openDossierFile(path);
  expect(await dossier.verify()).toEqual([]);
  await dossier.close();
  return dossier.work.versions.length;
}

describe('other programs read it', () => {
  /** Runs a program that every reference of this test needs; its absence is a fault of the machine, and said. */
  function run(program: string, args: string[]): string {
    const { error, status, stdout, stderr } = spawnSync(program, args, { encoding: 'utf8' });
    if (error)
      throw new Error(`This test compares with “${program}”, which is not installed: ${error.message}`);
    expect([status, stderr]).toEqual([0, '']);
    return stdout;
  }

  test('unzip (Info-ZIP) finds every checksum right and unpacks the same bytes', async () => {
    await saveDossierFile(path, draft);
    await addSecond();
    expect(run('unzip', ['-t', path])).toMatch(/No errors detected/);
    run('unzip', ['-q', path, '-d', join(folder, 'out')]);
    expect(new Uint8Array(readFileSync(join(folder, 'out', 'pictures', `${sha256(first)}.png`)))).toEqual(
      first,
    );
    const manifest = JSON.parse(readFileSync(join(folder, 'out', 'manifest.json'), 'utf8'));
    expect([manifest.schema, manifest.work.versions.length]).toEqual(['halflight/dossier@1', 2]);
  });

  test('so does the zipfile module of Python, which hashes the content to the names', async () => {
    await saveDossierFile(path, draft);
    const script = `
import hashlib, json, sys, zipfile
with zipfile.ZipFile(sys.argv[1]) as z:
    assert z.testzip() is None
    files = json.loads(z.read('manifest.json'))['files']
    print([z.infolist()[0].filename, all(hashlib.sha256(z.read(f['path'])).hexdigest() == f['hash'] for f in files), len(files)])
`;
    expect(run('python3', ['-c', script, path])).toBe("['mimetype', True, 2]\n");
  });
});

describe('the name shows the old or the new dossier, whole', () => {
  test('a write that fails at any point leaves the old one and no rest', async () => {
    await saveDossierFile(path, draft);
    const old = readFileSync(path);
    let writes = 0;
    const probe = await openFile(path, 'r');
    const prototype = Object.getPrototypeOf(probe) as FileHandle;
    await probe.close();
    const real = prototype.write as (...args: unknown[]) => unknown;
    let failAt = Number.POSITIVE_INFINITY;
    vi.spyOn(prototype, 'write').mockImplementation(function (this: FileHandle, ...args: unknown[]) {
      writes++;
      if (writes >= failAt) throw Object.assign(new Error('full'), { code: 'ENOSPC' });
      return real.apply(this, args) as never;
    });
    for (failAt = 1; ; failAt++) {
      writes = 0;
      const error = await addSecond().catch((e) => e);
      if (error === undefined) break;
      expect(error).toBeInstanceOf(FileTrouble);
      expect((error as FileTrouble).sentence).toMatch(/could not be written: the disk is full/);
      expect(readFileSync(path).equals(old)).toBe(true);
      expect(readdirSync(folder)).toEqual(['ferry.halflight']);
    }
    expect(failAt).toBeGreaterThan(10);
    vi.restoreAllMocks();
    expect(await versionsThere()).toBe(2);
  });

  test('a picture that can’t be read to its end leaves the old one', async () => {
    await saveDossierFile(path, draft);
    const older = await openDossierFile(path);
    const broken = {
      ...thing(second),
      open: () =>
        new ReadableStream<Uint8Array>({
          pull(controller) {
            controller.error(new FileTrouble('damaged', 'The card was pulled out.', 'Put it back.'));
          },
        }),
    };
    await expect(saveDossierFile(path, { ...draft, older, work: next, things: [broken] })).rejects.toThrow(
      /card was pulled out/,
    );
    await older.close();
    expect(await versionsThere()).toBe(1);
    expect(readdirSync(folder)).toEqual(['ferry.halflight']);
  });

  test('two that add at once: the second is told, and neither version is lost in silence', async () => {
    await saveDossierFile(path, draft);
    const mine = await openDossierFile(path);
    await addSecond();
    const third = thing(noise(100, 5));
    await expect(saveDossierFile(path, { ...draft, older: mine, things: [third] })).rejects.toThrow(
      /changed by another program/,
    );
    await mine.close();
    expect(await versionsThere()).toBe(2);
  });

  test('a new dossier never takes the place of another file', async () => {
    writeFileSync(path, 'letters');
    await expect(saveDossierFile(path, draft)).rejects.toThrow(/is there already/);
    expect(readFileSync(path, 'utf8')).toBe('letters');
  });
});

describe('has a sentence for', () => {
  test('a path that is not there, and a folder', async () => {
    await expect(openDossierFile(path)).rejects.toThrow(/There is no file/);
    await expect(openDossierFile(folder)).rejects.toThrow(/is a folder/);
  });

  test('a folder that is not there', async () => {
    await expect(saveDossierFile(join(folder, 'no', 'x.halflight'), draft)).rejects.toThrow(
      /its folder does not exist/,
    );
  });
});

test('pictures pass through piece by piece: little is held while the disk is slow', async () => {
  const piece = noise(1 << 20);
  const count = 48;
  let made = 0;
  let written = 0;
  let most = 0;
  const long = {
    ...thing(readings, 'image/tiff'),
    bytes: count * piece.length,
    open: () =>
      new ReadableStream<Uint8Array>(
        {
          pull(controller) {
            if (made === count) return controller.close();
            made++;
            controller.enqueue(piece.slice());
          },
        },
        { highWaterMark: 0 },
      ),
  };
  const { writeDossier } = await import('../../src/dossier/index.ts');
  const sink = new WritableStream<Uint8Array>({
    async write(chunk) {
      written += chunk.length;
      most = Math.max(most, made * piece.length - written);
      await new Promise((resolve) => setImmediate(resolve));
    },
  });
  await writeDossier(sink, { ...draft, things: [long] });
  expect(made).toBe(count);
  expect(most).toBeLessThan(16 * piece.length);
});
