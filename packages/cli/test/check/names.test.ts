import { expect, test } from 'vitest';
import { mapNames } from '../../src/check/names.ts';

test.each([
  [['a.png'], ['a']],
  [
    ['dir/a.png', 'b.tiff'],
    ['a', 'b'],
  ],
  [
    ['a.png', 'a.jpg'],
    ['a.png', 'a.jpg'],
  ],
  [
    ['x/a.png', 'y/a.png', 'b.png'],
    ['a.png.1', 'a.png.2', 'b'],
  ],
  [
    ['A.png', 'a.jpg'],
    ['A.png', 'a.jpg'],
  ],
  [
    ['no-extension', '.hidden'],
    ['no-extension', '.hidden'],
  ],
])('%j become %j', (paths, names) => {
  expect(mapNames(paths)).toEqual(names);
});
