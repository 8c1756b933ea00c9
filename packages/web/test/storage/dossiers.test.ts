import { createHash } from 'node:crypto';
import { blobSource, openDossier } from '@halflight/files/dossier';
import { describe, expect, test } from 'vitest';
import { newWork, type Work } from '../../src/document/work.ts';
import { type BroughtIn, bringIn, bringInAll, writeWork } from '../../src/storage/dossiers.ts';
import { type Files, memoryFiles } from '../../src/storage/files.ts';
import { keepNew, openKept, write } from '../../src/storage/kept.ts';
import { folderOf, pictureOf } from '../../src/storage/places.ts';
import { version } from '../samples.ts';

const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text.repeat(300));
const hashOf = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

/** A work of two versions whose bytes are kept. */
async function kept(files: Files, id = 'w1', title = 'Ferry'): Promise<Work> {
  const [first, second, small] = [bytesOf(`${id} one`), bytesOf(`${id} two`), bytesOf(`${id} small`)];
  for (const bytes of [first, second, small]) await files.write(pictureOf(hashOf(bytes)), bytes);
  const sheet = (bytes: Uint8Array, number: number) => ({
    ...version,
    number,
    hash: hashOf(bytes),
    bytes: bytes.length,
  });
  const base = newWork(id, title, sheet(first, 1));
  const work = { ...base, versions: [...base.versions, { ...sheet(second, 2), small: hashOf(small) }] };
  await keepNew(files, folderOf(id), work);
  return work;
}

async function packed(files: Files, work: Work): Promise<Blob> {
  await writeWork(files, work, await files.sink('outgoing/x'));
  return (await files.blob('outgoing/x'))!;
}

const source = (blob: Blob, name = 'ferry.halflight') => blobSource(blob, name);

describe('a work leaves as a dossier and comes back', () => {
  test('into an empty store: document and bytes are the same', async () => {
    const here = memoryFiles();
    const work = await kept(here);
    const there = memoryFiles();
    const brought = await bringIn(there, source(await packed(here, work)));
    expect(brought).toEqual({ work, there: false, troubles: [] });
    expect((await openKept(there, folderOf('w1')))?.history.present).toEqual(work);
    for (const { hash } of work.versions)
      expect(await there.read(pictureOf(hash))).toEqual(await here.read(pictureOf(hash)));
  });

  test('onto the same shelf: nothing is done, or it stands beside the changed one', async () => {
    const files = memoryFiles();
    const work = await kept(files);
    const dossier = await packed(files, work);
    expect(await bringIn(files, source(dossier))).toMatchObject({ there: true });
    const opened = (await openKept(files, folderOf('w1')))!;
    await write(files, folderOf('w1'), opened, { kind: 'do', command: { kind: 'rename', title: 'Changed' } });
    const beside = await bringIn(files, source(dossier));
    expect([beside.there, beside.work.id === 'w1', beside.work.title]).toEqual([false, false, 'Ferry']);
    expect((await openKept(files, folderOf('w1')))?.history.present.title).toBe('Changed');
  });

  test('a picture that the store has lost is left out and told', async () => {
    const files = memoryFiles();
    const work = await kept(files);
    await files.remove(pictureOf(work.versions[0].hash));
    expect(await writeWork(files, work, await files.sink('outgoing/x'))).toBe(1);
    const dossier = await openDossier(source((await files.blob('outgoing/x'))!));
    expect([dossier.has(work.versions[0].hash), dossier.has(work.versions[1].hash)]).toEqual([false, true]);
  });

  test('a damaged picture in it is named, the rest comes in', async () => {
    const here = memoryFiles();
    const work = await kept(here);
    const bytes = new Uint8Array(await (await packed(here, work)).arrayBuffer());
    const at = Buffer.from(bytes).indexOf(Buffer.from(bytesOf('w1 one').subarray(0, 300)));
    bytes[at + 7] ^= 1;
    const there = memoryFiles();
    const { troubles } = await bringIn(there, source(new Blob([bytes])));
    expect(troubles).toEqual([expect.stringMatching(/its checksum differs/)]);
    expect(await there.size(pictureOf(work.versions[0].hash))).toBeNull();
    expect(await there.size(pictureOf(work.versions[1].hash))).toBeGreaterThan(0);
  });

  test('something else is refused with a sentence, and nothing is kept', async () => {
    const files = memoryFiles();
    await expect(bringIn(files, source(new Blob(['letters'])))).rejects.toThrow(/not a dossier of Halflight/);
    expect(await files.list('works')).toEqual([]);
  });
});

test('a whole shelf leaves as one file and comes back; a part that is damaged is named', async () => {
  const here = memoryFiles();
  const works = [
    await kept(here, 'w1', 'Ferry'),
    await kept(here, 'w2', 'Ferry'),
    await kept(here, 'w3', 'a/b'),
  ];
  const { writeShelfFile, openShelfFile } = await import('@halflight/files/dossier');
  await writeShelfFile(
    await here.sink('outgoing/shelf'),
    works.map((work) => ({
      name: work.title,
      write: async (sink: WritableStream<Uint8Array>) => void (await writeWork(here, work, sink)),
    })),
    '2026-03-01T10:00:00Z',
  );
  const shelf = (await here.blob('outgoing/shelf'))!;
  const parts = await openShelfFile(source(shelf, 'shelf.zip'));
  expect(parts?.map(({ name }) => name)).toEqual(['Ferry.halflight', 'Ferry 2.halflight', 'a b.halflight']);

  const there = memoryFiles();
  const each: BroughtIn[] = [];
  const troubles: string[] = [];
  const take = (blob: Blob) =>
    bringInAll(
      there,
      source(blob, 'shelf.zip'),
      blobSource,
      async (brought) => void each.push(brought),
      (sentence) => troubles.push(sentence),
    );
  await take(shelf);
  expect([each.map(({ work }) => work), troubles]).toEqual([works, []]);
  expect(await there.list('incoming')).toEqual([]);

  const bytes = new Uint8Array(await shelf.arrayBuffer());
  bytes[Buffer.from(bytes).indexOf('manifest.json') + 20] ^= 255;
  each.length = 0;
  await take(new Blob([bytes]));
  expect([each.length, troubles.length]).toEqual([2, 1]);
  expect(troubles[0]).toMatch(/Ferry\.halflight/);
});
