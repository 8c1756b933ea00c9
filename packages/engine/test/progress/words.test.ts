import { expect, test } from 'vitest';
import { changeSentence } from '../../src/progress/words.ts';

test.each([
  [0, 0, 0, 'Nothing changed.'],
  [0.1, 0.004, 0.11, 'From a distance nothing changed; up close 11 % of the fine detail is new.'],
  [
    2.34,
    0.2,
    0.004,
    'From a distance 20 % of the picture changed, by 2.3 on the whole; up close under 1 % of the fine detail is new.',
  ],
])('impact %d, share %d, effort %d', (impact, changedShare, effort, sentence) => {
  expect(changeSentence({ impact, changedShare, effort })).toBe(sentence);
});
