import { describe, expect, test } from 'vitest';
import {
  applyToClass,
  type ClassWork,
  classHistory,
  EMPTY_CLASS,
  inPageOrder,
  movePoint,
  type Point,
  spokenLength,
} from '../../src/state/class-document.ts';

const work = (file: string): ClassWork => ({
  id: `hash of ${file}`,
  file,
  bytes: 1,
  mediaType: 'image/png',
  who: file,
  title: '',
});
const point = (id: string, kind: Point['kind'], text = ''): Point => ({ id, kind, text, marks: [] });

test('works stand in the order of their files, and the same file is there once', () => {
  const works = ['work 2.png', 'work 1.png', 'work 1.png'].map(work);
  const now = applyToClass(EMPTY_CLASS, { kind: 'add', words: '', works });
  expect(now.works.map(({ file }) => file)).toEqual(['work 1.png', 'work 2.png']);
  expect(applyToClass(now, { kind: 'add', words: '', works })).toBe(now);
});

test('what was said can be undone and done again', () => {
  let history = classHistory.begin(EMPTY_CLASS);
  const critique = { points: [point('a', 'work', 'Soften the far shore.')] };
  history = classHistory.step(history, {
    kind: 'do',
    command: { kind: 'say', words: 'a point', id: 'w', critique },
  });
  const undone = classHistory.step(history, { kind: 'undo' });
  expect(undone.present.critiques).toEqual({});
  expect(classHistory.step(undone, { kind: 'redo' }).present.critiques.w).toEqual(critique);
});

test('a point moves among those of its kind, and praise is read first', () => {
  const points = [point('a', 'work'), point('b', 'praise'), point('c', 'work')];
  const moved = movePoint({ points }, 'a', 1).points;
  expect(inPageOrder(moved).map(({ id }) => id)).toEqual(['b', 'c', 'a']);
  expect(movePoint({ points }, 'c', 1).points).toEqual(points);
});

describe('spoken length: 130 words a minute (common practice, no source)', () => {
  test.each([
    ['', 0, 0],
    ['The lamp’s light is well-placed.', 5, 2],
    [Array(65).fill('word').join(' '), 65, 30],
  ])('%j', (text, words, seconds) => {
    expect(spokenLength({ points: [point('a', 'work', text)] })).toEqual({ words, seconds });
  });
});
