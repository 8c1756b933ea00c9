import { expect, test } from 'vitest';
import { countWord, listOf, percentBeside } from '../../src/findings/wording.ts';

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

test.each([
  [0.12, 0.03, '12 %'],
  [0.0348, 0.03, '3.5 %'],
  [0.0302, 0.03, '3.02 %'],
  [0.004, 0.03, 'under 1 %'],
])('a share of %d beside a limit of %d reads %s', (share, limit, text) => {
  expect(percentBeside(share, limit)).toBe(text);
});
