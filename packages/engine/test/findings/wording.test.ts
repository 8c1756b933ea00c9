import { expect, test } from 'vitest';
import { countWord, listOf } from '../../src/findings/wording.ts';

test.each([
  [[], ''],
  [['a'], 'a'],
  [['a', 'b'], 'a and b'],
  [['a', 'b', 'c'], 'a, b and c'],
])('%o joins to “%s”', (parts, text) => {
  expect(listOf(parts as string[])).toBe(text);
});

test.each([
  [0, 'no'],
  [12, 'twelve'],
  [13, '13'],
])('%d in words is %s', (count, word) => {
  expect(countWord(count)).toBe(word);
});
