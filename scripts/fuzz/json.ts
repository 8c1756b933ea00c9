import { changeBytes } from './bytes.ts';
import type { Chance } from './random.ts';

/** Values that are JSON and that nobody expects where they stand. */
const ODD: readonly unknown[] = [
  null,
  true,
  false,
  0,
  -1,
  0.5,
  1e-320,
  1e308,
  -1e308,
  2 ** 53,
  4294967296,
  '',
  'none',
  '../../out',
  '<img src=x onerror=alert(1)>',
  '\ud800',
  'x'.repeat(5000),
  [],
  {},
  [[]],
  [null],
  Array(300).fill(0),
  { schema: 'halflight/recipe@2' },
];

interface Spot {
  readonly holder: Record<string, unknown>;
  readonly key: string;
}

/** Every place of a value in which something stands. */
function spotsOf(value: unknown, spots: Spot[] = []): Spot[] {
  if (typeof value !== 'object' || value === null) return spots;
  const holder = value as Record<string, unknown>;
  for (const key of Object.keys(holder)) {
    spots.push({ holder, key });
    spotsOf(holder[key], spots);
  }
  return spots;
}

/** A JSON value with one to three places changed, mostly one; the source stays as it is. */
export function changeValue(source: unknown, chance: Chance): unknown {
  const root = { value: structuredClone(source) };
  for (let times = chance.one([1, 1, 1, 2, 3]); times > 0; times--) {
    const spots = spotsOf(root);
    if (spots.length === 0) break;
    const { holder, key } = chance.one(spots);
    const value = holder[key];
    const act = chance.below(8);
    if (act === 0) delete holder[key];
    else if (act === 1) holder[key] = structuredClone(chance.one(ODD));
    else if (act === 2) {
      const from = chance.one(spots);
      holder[key] = structuredClone(from.holder[from.key]);
    } else if (act === 3 && !Array.isArray(holder)) {
      holder[chance.one([`${key}s`, '__proto__x', 'constructor', key.toUpperCase(), ''])] = value;
    } else if (act === 4 && Array.isArray(value)) {
      holder[key] = chance.maybe(0.5) ? [...value, ...structuredClone(value)] : value.slice(1);
    } else if (act === 5 && Array.isArray(value) && value.length > 0) {
      holder[key] = Array(chance.one([50, 500])).fill(chance.one(value));
    } else if (typeof value === 'number') {
      holder[key] = chance.one([-value, value * 10, value / 1000, value + 1, value + 0.5, value * 1e9, 1, 0]);
    } else if (typeof value === 'string') {
      holder[key] = chance.one([
        `${value} `,
        value.toUpperCase(),
        value.slice(1),
        `${value}@9`,
        [...value].reverse().join(''),
      ]);
    } else holder[key] = structuredClone(chance.one(ODD));
  }
  return root.value;
}

/** The text of a JSON value that was changed, mostly in its places and now and then in its letters. */
export function changeJson(source: unknown, chance: Chance): Uint8Array {
  const text = JSON.stringify(changeValue(source, chance)) ?? '';
  const nested = chance.maybe(0.01) ? `${'['.repeat(9000)}${text}${']'.repeat(9000)}` : text;
  const bytes = new TextEncoder().encode(nested);
  return chance.maybe(0.1) ? changeBytes(bytes, chance) : bytes;
}

/** The value behind the bytes, or undefined when they are no JSON. */
export function parseBytes(bytes: Uint8Array): unknown {
  try {
    return JSON.parse(new TextDecoder().decode(bytes));
  } catch {
    return undefined;
  }
}
