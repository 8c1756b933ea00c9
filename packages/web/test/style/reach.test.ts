import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';

const SRC = fileURLToPath(new URL('../../src', import.meta.url));
const files = readdirSync(SRC, { recursive: true, encoding: 'utf8' }).map((name) => join(SRC, name));
const text = new Map(
  files.filter((it) => /\.(tsx?|css)$/.test(it)).map((it) => [it, readFileSync(it, 'utf8')]),
);

const own = (from: string, matches: Iterable<RegExpMatchArray>): string[] =>
  [...matches].map(([, to]) => join(dirname(from), to)).filter((to) => text.has(to));
/** What a file brings along when it is loaded. */
const brings = (from: string): string[] =>
  own(from, (text.get(from) ?? '').matchAll(/^(?:import|export)\s(?:[^;]*?from\s)?'(\.[^']+)';/gm));
/** What it loads later, when it is asked for. */
const later = (from: string): string[] =>
  own(from, (text.get(from) ?? '').matchAll(/\bimport\('(\.[^']+\.tsx)'\)/g));

function closure(roots: readonly string[]): Set<string> {
  const seen = new Set<string>();
  const visit = (it: string): void => {
    if (seen.has(it)) return;
    seen.add(it);
    brings(it).forEach(visit);
  };
  roots.forEach(visit);
  return seen;
}

/** The style sheets that say how a class looks wherever it stands. */
const owners = new Map<string, string[]>();
for (const [name, css] of text) {
  if (!name.endsWith('.css')) continue;
  const lists = css.replace(/\/\*.*?\*\//gs, '').matchAll(/([^{}]*)\{/g);
  for (const one of [...lists].flatMap(([, list]) => list.split(','))) {
    const [, alone] = /^\s*\.([\w-]+)\s*$/.exec(one) ?? [];
    if (alone !== undefined) owners.set(alone, [...new Set([...(owners.get(alone) ?? []), name])]);
  }
}

const classesOf = (source: string): string[] =>
  [...source.matchAll(/className=(?:"([^"]*)"|\{([^}]*)\})/g)].flatMap(([, plain, code]) =>
    plain === undefined
      ? [...code.matchAll(/['`]([^'`$]*)['`]/g)].flatMap(([, it]) => it.split(/\s+/))
      : plain.split(/\s+/),
  );

const MAIN = join(SRC, 'main.tsx');
const first = closure([MAIN]);
const roots = [...new Set([...text.keys()].flatMap(later))];

describe('a part that is loaded alone brings the style of all that it shows', () => {
  test('parts and classes are found', () => {
    expect(roots.length).toBeGreaterThan(8);
    expect(owners.get('value')?.length).toBeGreaterThan(0);
    expect(classesOf(`<p className="a b" /><p className={x ? 'c' : 'd e'} />`)).toEqual([...'abcde']);
  });

  test.each([MAIN, ...roots].map((it) => [it.slice(SRC.length + 1), it]))('%s', (_, root) => {
    const there = new Set([...first, ...closure([root])]);
    const missing = [...there].flatMap((it) =>
      classesOf(text.get(it) ?? '').flatMap((name) =>
        (owners.get(name) ?? [])
          .filter((sheet) => !there.has(sheet))
          .map((sheet) => `${it.slice(SRC.length + 1)}: .${name} of ${sheet.slice(SRC.length + 1)}`),
      ),
    );
    expect(missing).toEqual([]);
  });
});
