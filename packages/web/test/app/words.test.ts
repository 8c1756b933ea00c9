import { OPEN_INTENT } from '@halflight/engine';
import { describe, expect, test } from 'vitest';
import { keyWish } from '../../src/app/keys.ts';
import { parseRoute, type Route, routeHash } from '../../src/app/route.ts';
import { clausesOf } from '../../src/parts/clauses.ts';
import { number } from '../../src/parts/ReadingDetails.tsx';
import { arrange } from '../../src/screens/shelf/arrange.ts';
import type { ShelfEntry } from '../../src/storage/keeper.ts';
import { step, work } from '../samples.ts';

test.each<Route>([
  { screen: 'shelf' },
  { screen: 'baseline' },
  { screen: 'check', work: 'a b/c' },
  { screen: 'intent', work: '1' },
  { screen: 'rework', work: '1' },
  { screen: 'standback', work: '1' },
  { screen: 'progress', work: '1' },
  { screen: 'thinout', work: '1' },
  { screen: 'layers' },
])('the address of %o leads back to it', (route) => {
  expect(parseRoute(routeHash(route))).toEqual(route);
});

test.each(['', '#', '#/nowhere', '#/work', '#/work/'])('the address “%s” is the shelf', (hash) => {
  expect(parseRoute(hash)).toEqual({ screen: 'shelf' });
});

describe('the sentence at the end of the margin', () => {
  const seen = { readings: [], findings: [], settled: [], undecided: [] };
  const text = (it: typeof work, onShelf = 1): string =>
    clausesOf(it, seen, onShelf)
      .map((clause) => clause.text)
      .join('; ');

  test('with nothing decided', () => {
    expect(text(work)).toBe(
      'Nothing is decided yet; no note is open; no edit; no quiet look yet; one version so far; one layer; not handed over yet; the shelf',
    );
  });

  test('with something decided', () => {
    const intent = { ...OPEN_INTENT, hue: { families: [] }, mood: { axes: {} } };
    expect(
      text({ ...work, intent, recipe: { schema: 'halflight/recipe@1', steps: [step(), step()] } }, 14),
    ).toBe(
      'The mood and the hue plan are decided; no note is open; an edit of two steps; no quiet look yet; one version so far; one layer; not handed over yet; 14 works on the shelf',
    );
  });
});

test.each([
  [-1.26, 1, '−1.3'],
  [-0.01, 1, '0.0'],
  [4, 0, '4'],
])('%d with %d digits is %s', (value, digits, text) => {
  expect(number(value, digits)).toBe(text);
});

describe('keys', () => {
  const press = (key: string, more = {}) => ({
    key,
    ctrlKey: false,
    metaKey: false,
    shiftKey: false,
    altKey: false,
    ...more,
  });
  test.each([
    ['?', {}, true, 'help'],
    ['?', {}, false, null],
    ['i', {}, true, 'intent'],
    ['i', {}, false, null],
    ['ArrowDown', {}, false, 'next'],
    ['z', { ctrlKey: true }, false, 'undo'],
    ['Z', { metaKey: true, shiftKey: true }, false, 'redo'],
    ['i', { ctrlKey: true }, true, null],
    ['i', { altKey: true }, true, null],
  ])('%s %o with single keys %s: %s', (key, more, singles, wish) => {
    expect(keyWish(press(key, more), singles)).toBe(wish);
  });
});

describe('the shelf', () => {
  const entry = (
    title: string,
    touched: string,
    openNotes: number,
    topFinding: string | null,
  ): ShelfEntry => ({
    id: title,
    title,
    state: 'painting',
    version: 1,
    created: touched,
    touched,
    hashes: [],
    openNotes,
    topFinding,
  });
  const shelf = [
    entry('Ferry 10', '2026-03-01', 1, 'Darks are closed.'),
    entry('Ferry 2', '2026-03-03', 4, null),
    entry('Barn', '2026-03-02', 0, 'Many hues.'),
  ];
  test.each([
    ['', 'touched', ['Ferry 2', 'Barn', 'Ferry 10']],
    ['', 'title', ['Barn', 'Ferry 2', 'Ferry 10']],
    ['', 'notes', ['Ferry 2', 'Ferry 10', 'Barn']],
    ['FERRY', 'title', ['Ferry 2', 'Ferry 10']],
    ['closed darks', 'title', ['Ferry 10']],
    ['nothing', 'title', []],
  ] as const)('“%s” by %s: %o', (query, order, titles) => {
    expect(arrange(shelf, query, order).map(({ title }) => title)).toEqual(titles);
  });
});
