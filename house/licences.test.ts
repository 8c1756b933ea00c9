import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { shippedLibraries, thirdParty } from '../scripts/house/licences.mjs';
import { ROOT } from './sources.ts';

test('THIRD_PARTY.md lists what is shipped (else: node scripts/licences.mjs)', () => {
  expect(readFileSync(`${ROOT}THIRD_PARTY.md`, 'utf8')).toBe(thirdParty());
});

test('what is shipped may be shipped', () => {
  const rows = [...thirdParty().matchAll(/^\| (\S+) \| \S+ \| (.+) \|$/gm)].slice(1);
  expect(rows.length).toBeGreaterThan(30);
  // SPDX names of permissive licences; libvips alone is under the LGPL, as a library of its own.
  const permissive = /^(MIT|ISC|0BSD|BSD-[23]-Clause|Apache-2\.0|OFL-1\.1|LGPL-3\.0-or-later)( AND |$)/;
  expect(rows.filter(([, , licence]) => !permissive.test(licence)).map(([row]) => row)).toEqual([]);
  expect(rows.filter(([, name, licence]) => /GPL/.test(licence) && !/^@img\/sharp-/.test(name))).toEqual([]);
});

test('a library is found from the folder that asks for it, as Node does', () => {
  const packages = {
    'packages/engine': { dependencies: { a: '1' } },
    'packages/files': {},
    'packages/pages': {},
    'packages/cli': {},
    'packages/web': {},
    'node_modules/a': {
      version: '1.0.0',
      dependencies: { b: '1' },
      peerDependencies: { c: '1', d: '1' },
      peerDependenciesMeta: { d: { optional: true } },
    },
    'node_modules/b': { version: '2.0.0' },
    'node_modules/a/node_modules/b': { version: '1.0.0' },
    'node_modules/c': { version: '1.0.0' },
    'node_modules/d': { version: '1.0.0' },
  };
  expect([...shippedLibraries(packages).keys()]).toEqual([
    'node_modules/a',
    'node_modules/a/node_modules/b',
    'node_modules/c',
  ]);
});
