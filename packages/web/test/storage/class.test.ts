import { expect, test } from 'vitest';
import { applyToClass, type ClassCommand, EMPTY_CLASS } from '../../src/state/class-document.ts';
import { openClassKeeper } from '../../src/storage/class.ts';
import { type Files, memoryFiles } from '../../src/storage/files.ts';

const naming = (title: string): ClassCommand => ({ kind: 'about', words: 'the name', about: { title } });
const open = (files: Files, free = true) =>
  openClassKeeper(
    files,
    async () => (free ? () => undefined : null),
    (base, done) => done.reduce(applyToClass, base),
  );
const kept = (count: number) => ({
  base: EMPTY_CLASS,
  done: Array.from({ length: count }, (_, index) => naming(`name ${index + 1}`)),
  undone: [],
});

test('what was written last is what is opened', async () => {
  const files = memoryFiles();
  const keeper = open(files);
  await keeper.open();
  for (const count of [1, 2, 3]) await keeper.write(kept(count));
  const again = await open(files).open();
  expect(again.kept?.done).toEqual(kept(3).done);
});

test('a class whose writing was cut off at any byte is the one before', async () => {
  const files = memoryFiles();
  const keeper = open(files);
  await keeper.open();
  await keeper.write(kept(1));
  await keeper.write(kept(2));
  const newest = (await files.read('class/a')) ?? new Uint8Array();
  for (const length of [0, 5, 40, newest.length - 1]) {
    await files.write('class/a', newest.subarray(0, length));
    expect((await open(files).open()).kept?.done.length).toBe(1);
  }
});

test('commands beyond the limit of undo become part of the base', async () => {
  const files = memoryFiles();
  const keeper = open(files);
  await keeper.open();
  await keeper.write(kept(310));
  const { kept: again } = await open(files).open();
  expect(again?.done.length).toBe(300);
  expect(again?.base.title).toBe('name 10');
});

test('another window reads and does not write', async () => {
  const keeper = open(memoryFiles(), false);
  expect((await keeper.open()).writable).toBe(false);
  await expect(keeper.write(kept(1))).rejects.toThrow(/Another tab/);
});

test('readings that no work has any more go, and a torn one is read again', async () => {
  const files = memoryFiles();
  const keeper = open(files);
  await keeper.open();
  const works = ['a1', 'b2', 'c3'].map((id) => ({
    id,
    file: id,
    bytes: 1,
    mediaType: '',
    who: id,
    title: '',
  }));
  const add: ClassCommand = { kind: 'add', words: '', works: works.slice(0, 2) };
  await keeper.write({ base: EMPTY_CLASS, done: [add], undone: [] });
  for (const { id } of works) await keeper.keepReading(id, { trouble: `${id} is empty.` });
  const bytes = (await files.read('class/reading/b2')) ?? new Uint8Array();
  await files.write('class/reading/b2', bytes.subarray(0, 12));
  const { readings } = await open(files).open();
  expect(Object.keys(readings)).toEqual(['a1']);
  expect(await files.list('class/reading')).toEqual(['a1', 'b2']);
});
