import { expect, test } from 'vitest';
import { houseFiles, textOf } from './sources.ts';

// Put together here, so that this file does not hold what it looks for.
const FORBIDDEN: [what: string, pattern: RegExp][] = [
  [
    'a host of a package registry',
    new RegExp(['https?://[\\w.-]*', '(registry|npmjs|yarnpkg)'].join(''), 'i'),
  ],
  ['a machine path', new RegExp(['(^|[\\s"\'`(=])/', '(work|root|home|Users)/'].join(''), 'm')],
];

test.each(FORBIDDEN)('no file names %s', (_, pattern) => {
  const naming = houseFiles().filter((file) => pattern.test(textOf(file) ?? ''));
  expect(naming).toEqual([]);
});

test.each([
  [0, ['https://', 'registry.example.org/a.tgz'].join('')],
  [1, ['cd ', '/work', '/somewhere'].join('')],
])('pattern %i finds what it should', (index, text) => {
  expect(FORBIDDEN[index][1].test(text)).toBe(true);
});
