import { expect, test } from 'vitest';
import { arrange, restedLongest } from '../../src/screens/shelf/arrange.ts';
import type { ShelfEntry } from '../../src/storage/keeper.ts';

const entry = (id: string, change: Partial<ShelfEntry> = {}): ShelfEntry => ({
  id,
  title: id,
  state: 'painting',
  version: 1,
  created: '2026-03-01',
  touched: '2026-03-01',
  hashes: [],
  ...change,
});
const shelf = [
  entry('Ferry 10', { touched: '2026-03-05', openNotes: 1, topFinding: 'Darks are closed.' }),
  entry('Ferry 9', { touched: '2026-03-07', openNotes: 4, state: 'resting' }),
  entry('Barn', { touched: '2026-03-02', state: 'resting' }),
];
const titles = (...args: Parameters<typeof arrange>): string[] => arrange(...args).map(({ title }) => title);

test.each([
  ['touched', ['Ferry 9', 'Ferry 10', 'Barn']],
  ['title', ['Barn', 'Ferry 9', 'Ferry 10']],
  ['notes', ['Ferry 9', 'Ferry 10', 'Barn']],
] as const)('in the order of %s', (order, expected) => {
  expect(titles(shelf, '', order)).toEqual(expected);
});

test.each([
  ['ferry', ['Ferry 10', 'Ferry 9']],
  ['DARKS closed', ['Ferry 10']],
  ['resting barn', ['Barn']],
  ['sea', []],
])('“%s” is found in title, state and note', (query, expected) => {
  expect(titles(shelf, query, 'title').sort()).toEqual([...expected].sort());
});

test('the picture to take up is the one that rested longest', () => {
  expect(restedLongest(shelf)?.title).toBe('Barn');
  expect(restedLongest([shelf[0]])).toBeNull();
});
