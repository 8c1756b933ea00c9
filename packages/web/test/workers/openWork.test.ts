import { describe, expect, test } from 'vitest';
import type { Entry } from '../../src/document/history.ts';
import { newWork } from '../../src/document/work.ts';
import { type Files, memoryFiles } from '../../src/storage/files.ts';
import { keepNew, openKept } from '../../src/storage/kept.ts';
import { folderOf, pictureOf } from '../../src/storage/places.ts';
import { memoryIndex } from '../../src/workers/storage/index-db.ts';
import { openWorkOf } from '../../src/workers/storage/open-work.ts';
import { entryOf, entryWithNotes, sweep } from '../../src/workers/storage/shop.ts';
import { answer, version } from '../samples.ts';

const rename = (title: string): Entry => ({ kind: 'do', command: { kind: 'rename', title } });
const full = (): never => {
  throw new DOMException('full', 'QuotaExceededError');
};
const hash = (letter: string): string => letter.repeat(64);

/** A store with works of these names, each with its own picture; `refuse` makes it full. */
async function shelfOf(...names: string[]) {
  const state = { refuse: false };
  const plain = memoryFiles();
  const files: Files = {
    ...plain,
    write: async (path, bytes) => (state.refuse ? full() : plain.write(path, bytes)),
    append: async (path, bytes) => (state.refuse ? full() : plain.append(path, bytes)),
    remove: async (path) => {
      await plain.remove(path);
      // As in a browser: what goes makes room.
      if (path.startsWith('pictures/')) state.refuse = false;
    },
  };
  const index = memoryIndex();
  for (const name of names) {
    const work = newWork(name, name, { ...version, hash: hash(name) });
    await plain.write(pictureOf(hash(name)), new Uint8Array(10));
    await keepNew(plain, folderOf(name), work);
    await index.put(entryOf(work, null));
  }
  const held = new Set<string>();
  const heard: string[] = [];
  const desk = openWorkOf(Promise.resolve({ files, index }), {
    lock: async (id) => {
      if (held.has(id)) return null;
      held.add(id);
      return () => void held.delete(id);
    },
    untilFree: () => () => undefined,
    written: (id) => void heard.push(id),
    forgotten: () => void heard.push('forgotten'),
  });
  const titleOf = async (id: string) => (await openKept(plain, folderOf(id)))?.history.present.title;
  return { state, files, plain, index, desk, held, heard, titleOf };
}

describe('a store that is full while a work is written', () => {
  test('takes the room of works that are off the shelf, and goes on', async () => {
    const { state, plain, index, desk, heard, titleOf } = await shelfOf('a', 'b');
    await index.change('b', { removed: true });
    await desk.open('a');
    state.refuse = true;
    await desk.write(rename('one'));
    expect(await titleOf('a')).toBe('one');
    expect(await plain.list('pictures')).toEqual([hash('a')]);
    expect((await index.all()).map(({ id }) => id)).toEqual(['a']);
    expect(heard).toEqual(['forgotten', 'a']);
  });

  test('never takes bytes that another work needs as well, or that are on their way', async () => {
    const { state, plain, index, desk } = await shelfOf('a', 'b', 'c');
    await index.change('a', { hashes: [hash('b'), hash('a')] });
    await index.change('b', { removed: true });
    await index.change('c', { removed: true });
    state.refuse = true;
    await desk.withRoom(
      async () => (state.refuse && (await plain.list('works')).includes('b') ? full() : undefined),
      () => [hash('c')],
    );
    expect((await plain.list('pictures')).sort()).toEqual([hash('a'), hash('b'), hash('c')]);
  });

  test('is told, and what it refused is written with the next that succeeds', async () => {
    const { state, desk, titleOf, index } = await shelfOf('a');
    await desk.open('a');
    state.refuse = true;
    await expect(desk.write(rename('one'))).rejects.toThrow('full');
    await expect(
      desk.write({ kind: 'do', command: { kind: 'setState', state: 'resting' } }),
    ).rejects.toThrow();
    expect(await titleOf('a')).toBe('a');
    state.refuse = false;
    await desk.write({ kind: 'undo' });
    expect(await titleOf('a')).toBe('one');
    expect((await index.all())[0]).toMatchObject({ title: 'one', state: 'painting' });
  });

  test('loses nothing when the work is put away, and opens it as it was', async () => {
    const { state, desk, held, titleOf, index, heard } = await shelfOf('a', 'b');
    await desk.open('a');
    state.refuse = true;
    await desk.write(rename('one')).catch(() => undefined);
    await desk.open('b');
    // No other tab may write it meanwhile.
    expect([...held].sort()).toEqual(['a', 'b']);
    const again = await desk.open('a');
    expect([again?.done.length, again?.writable]).toEqual([1, true]);
    await desk.close();
    await index.change('b', { removed: true });
    await desk.settle();
    expect([await titleOf('a'), [...held], heard.at(-1)]).toEqual(['one', [], 'a']);
    expect((await index.all()).map(({ title }) => title)).toEqual(['one']);
  });
});

test('a work can be taken off a shelf that is too full to note it: it goes at once', async () => {
  const { plain, index, desk } = await shelfOf('a', 'b');
  await desk.open('a');
  expect(await desk.takeOff('b')).toBe(true);
  expect((await index.all()).map(({ id, removed }) => [id, removed ?? false])).toEqual([
    ['a', false],
    ['b', true],
  ]);
  index.change = async () => full();
  expect(await desk.takeOff('b')).toBe(false);
  expect([(await index.all()).map(({ id }) => id), await plain.list('pictures')]).toEqual([
    ['a'],
    [hash('a')],
  ]);
});

test('a second tab reads, and does not write', async () => {
  const { desk, held } = await shelfOf('a');
  held.add('a');
  expect((await desk.open('a'))?.writable).toBe(false);
  await expect(desk.write(rename('x'))).rejects.toThrow(/Another tab/);
});

describe('at the start', () => {
  test('a picture that came a moment before the page ended is not swept away', async () => {
    const { files, plain, index, desk } = await shelfOf('a');
    await plain.write(pictureOf(hash('e')), new Uint8Array(10));
    await desk.open('a');
    const { number: _, ...next } = { ...version, hash: hash('e') };
    await desk.write({ kind: 'do', command: { kind: 'addVersion', version: next, pose: null } });
    // The page ended after the work was written, before its line of the shelf was.
    await index.change('a', { hashes: [hash('a')], version: 1 });
    await plain.write(pictureOf(hash('f')), new Uint8Array(10));
    await sweep({ files, index });
    expect((await plain.list('pictures')).sort()).toEqual([hash('a'), hash('e')]);
    expect((await index.all())[0]).toMatchObject({ version: 2, hashes: [hash('a'), hash('e')] });
  });

  test('works off the shelf go, those that the index lost come back', async () => {
    const { files, plain, index } = await shelfOf('a', 'b');
    await index.change('a', { removed: true });
    await index.delete('b');
    await sweep({ files, index });
    expect((await index.all()).map(({ id }) => id)).toEqual(['b']);
    expect([await plain.list('works'), await plain.list('pictures')]).toEqual([['b'], [hash('b')]]);
  });
});

test('a work from a dossier stands on the shelf with its last look and the note that weighs most', async () => {
  const files = memoryFiles();
  const findings = ['one', 'two', 'three'].map((text) => ({ key: `value.${text}`, text }));
  await files.write(pictureOf(hash('d')), new TextEncoder().encode(JSON.stringify({ findings })));
  const looks = [
    { at: '2026-03-02T10:00:00.000Z', version: 1, by: 'own', seconds: 10, mirrored: false },
  ] as const;
  const base = newWork('w', 'Ferry', { ...version, readings: hash('d') });
  const work = {
    ...base,
    looks,
    answers: [answer({ key: 'value.one' }), answer({ key: 'value.two', kind: 'willDo' })],
  };
  expect(await entryWithNotes(files, work)).toMatchObject({
    topFinding: 'two',
    openNotes: 2,
    lastLook: { at: looks[0].at, version: 1 },
  });
  const unread = await entryWithNotes(files, base);
  await files.remove(pictureOf(hash('d')));
  expect([unread.topFinding, (await entryWithNotes(files, base)).topFinding]).toEqual(['one', undefined]);
});
