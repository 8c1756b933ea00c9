import fc from 'fast-check';
import { expect, test } from 'vitest';
import { wrap } from '../../src/terminal/wrap.ts';

test.each([
  ['', 10, '', ''],
  ['one two three', 7, '', 'one two\nthree'],
  ['one two three', 9, '  ', '  one two\n  three'],
  ['immeasurable', 5, '', 'immeasurable'],
  ['one   two\nthree', 80, '', 'one two three'],
  ['leads with 51 % of it', 13, '', 'leads with\n51 % of it'],
])('%j at %i with %j', (text, width, indent, wrapped) => {
  expect(wrap(text, width, indent)).toBe(wrapped);
});

test('keeps every word in order, and no line is too long unless it is one word', () => {
  const words = fc.array(fc.stringMatching(/^[a-z]{1,9}$/), { minLength: 1 });
  fc.assert(
    fc.property(words, fc.integer({ min: 4, max: 40 }), (list, width) => {
      const lines = wrap(list.join(' '), width).split('\n');
      expect(lines.join(' ').split(' ')).toEqual(list);
      for (const line of lines) expect(line.length <= width || !line.includes(' ')).toBe(true);
    }),
  );
});
