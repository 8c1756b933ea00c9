import { readFileSync } from 'node:fs';
import { isBuiltin } from 'node:module';
import { posix } from 'node:path';
import { describe, expect, test } from 'vitest';
import { importsOf, packageOf } from './imports.ts';
import { houseFiles, ROOT, textOf } from './sources.ts';

/** Who may know whom. `node` says whether modules of Node itself may be used. */
const RULES: Record<string, { knows: string[]; node: boolean; libraries?: string[] }> = {
  'packages/engine': { knows: [], node: false, libraries: ['valibot', 'fft.js'] },
  'packages/files': { knows: ['engine'], node: true },
  'packages/pages': { knows: ['engine'], node: false },
  'packages/cli': { knows: ['engine', 'files', 'pages'], node: true },
  'packages/web': { knows: ['engine', 'files', 'pages'], node: false },
  demo: { knows: ['engine', 'files'], node: true },
  bench: { knows: ['engine', 'files', 'pages', 'cli', 'demo'], node: true },
};

/** Names that only a browser, a clock or chance provides: the engine stays free of them. */
const SURROUNDINGS =
  /\b(?:document|window|navigator|localStorage|process|Buffer)\.|\bDate\b|\bMath\.random\b|\bperformance\.|\bfetch\(/;

function sourcesOf(folder: string): string[] {
  return houseFiles(
    `${folder}/src/*.ts`,
    `${folder}/src/*.tsx`,
    `${folder}/src/**/*.ts`,
    `${folder}/src/**/*.tsx`,
  );
}

function importsIn(folder: string): { file: string; module: string }[] {
  return [...new Set(sourcesOf(folder))].flatMap((file) =>
    importsOf(textOf(file) ?? '').map((module) => ({ file, module })),
  );
}

describe.each(Object.entries(RULES))('%s', (folder, rule) => {
  const found = importsIn(folder);
  const outside = found.filter(({ module }) => !module.startsWith('.'));

  test('has sources', () => {
    expect(sourcesOf(folder).length).toBeGreaterThan(0);
  });

  test('stays inside its own folder', () => {
    const leaving = found.filter(
      ({ file, module }) =>
        module.startsWith('.') && !posix.join(posix.dirname(file), module).startsWith(`${folder}/`),
    );
    expect(leaving).toEqual([]);
  });

  test(`knows ${rule.knows.join(', ') || 'no other package'}`, () => {
    const others = outside.filter(
      ({ module }) =>
        module.startsWith('@halflight/') &&
        !rule.knows.includes(packageOf(module).slice('@halflight/'.length)),
    );
    expect(others).toEqual([]);
  });

  test('uses the modules of Node only where it may', () => {
    expect(outside.filter(({ module }) => isBuiltin(module) && !rule.node)).toEqual([]);
  });

  test('declares every library it uses', () => {
    const { dependencies = {} } = JSON.parse(readFileSync(`${ROOT}${folder}/package.json`, 'utf8'));
    const undeclared = outside.filter(
      ({ module }) =>
        !isBuiltin(module) &&
        !module.startsWith('virtual:') &&
        !(packageOf(module.replace(/\?.*$/, '')) in dependencies),
    );
    expect(undeclared).toEqual([]);
  });

  const { libraries } = rule;
  if (libraries)
    test('takes few libraries', () => {
      expect(outside.filter(({ module }) => !libraries.includes(packageOf(module)))).toEqual([]);
    });
});

test('the engine asks neither screen, clock nor chance', () => {
  const asking = sourcesOf('packages/engine').filter((file) =>
    SURROUNDINGS.test(withoutComments(textOf(file)!)),
  );
  expect(asking).toEqual([]);
});

function withoutComments(source: string): string {
  return source.replace(/\/\*[\s\S]*?\*\//g, '').replace(/\/\/.*$/gm, '');
}

test.each([
  ["import { a } from './a.ts';", ['./a.ts']],
  ["import {\n  a,\n  b,\n} from '@halflight/engine';", ['@halflight/engine']],
  ["export type { A } from './a.ts';\nimport './side.css';", ['./a.ts', './side.css']],
  ["const m = await import('node:fs');", ['node:fs']],
])('finds the imports of %j', (source, modules) => {
  expect(importsOf(source)).toEqual(modules);
});
