import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { filterDeficiencyDeuter, filterDeficiencyProt, filterDeficiencyTrit } from 'culori';
import { describe, expect, test } from 'vitest';
import { contour } from '../../src/parts/stage/contour.ts';
import deficiency from './deficiency.json' with { type: 'json' };

type Rgb = readonly [number, number, number];

const SRC = fileURLToPath(new URL('../../src/', import.meta.url));
const TOKENS = readFileSync(`${SRC}style/tokens.css`, 'utf8');

/** How people see: as most do, and with one kind of cone missing. */
const VISIONS: Readonly<Record<string, readonly number[]>> = {
  all: [1, 0, 0, 0, 1, 0, 0, 0, 1],
  protan: deficiency.protan,
  deutan: deficiency.deutan,
  tritan: deficiency.tritan,
};

const linear = (code: number): number =>
  code / 255 <= 0.04045 ? code / 255 / 12.92 : ((code / 255 + 0.055) / 1.055) ** 2.4;
const bytes = (hex: string): Rgb => {
  const long = hex.length === 4 ? hex.replace(/[0-9a-f]/gi, '$&$&') : hex;
  return [1, 3, 5].map((at) => Number.parseInt(long.slice(at, at + 2), 16)) as unknown as Rgb;
};

/** Relative luminance (WCAG 2.2) of a colour of 0…255 as it is seen. */
function seen(rgb: Rgb, vision: string): number {
  const m = VISIONS[vision];
  const [r, g, b] = rgb.map(linear);
  const [R, G, B] = [0, 3, 6].map((at) =>
    Math.min(1, Math.max(0, m[at] * r + m[at + 1] * g + m[at + 2] * b)),
  );
  return 0.2126 * R + 0.7152 * G + 0.0722 * B;
}

/** Contrast ratio (WCAG 2.2). */
function contrast(a: Rgb, b: Rgb, vision: string): number {
  const [low, high] = [seen(a, vision), seen(b, vision)].sort((x, y) => x - y);
  return (high + 0.05) / (low + 0.05);
}

/** What a name stands for on a wall or a ground: the last word of the sheet, through its names. */
function token(name: string, block: string): Rgb {
  const part = TOKENS.slice(TOKENS.indexOf(`${block} {`));
  const value = new RegExp(`--${name}: (?:var\\(--([\\w-]+)\\)|(#[0-9a-f]+))`).exec(
    part.slice(0, part.indexOf('}')),
  );
  if (value?.[2]) return bytes(value[2]);
  const [, hex] = new RegExp(`--${value?.[1]}: (#[0-9a-f]+)`).exec(TOKENS) ?? [];
  if (!hex) throw new Error(`${name} in ${block} is no colour`);
  return bytes(hex);
}

const WALLS = ['dark', 'middle', 'paper'].map((wall) => `[data-wall="${wall}"]`);
const GROUNDS = ['dark', 'paper'].map((ground) => `[data-ground="${ground}"]`);
const EVERY = Object.keys(VISIONS);

test('the simulation is the one of culori, which has the same paper', () => {
  const filters = {
    protan: filterDeficiencyProt(1),
    deutan: filterDeficiencyDeuter(1),
    tritan: filterDeficiencyTrit(1),
  };
  for (const [kind, filter] of Object.entries(filters))
    for (let k = 0; k < 3; k++) {
      // Culori applies the matrix to the numbers it is given.
      const unit = { mode: 'rgb', r: Number(k === 0), g: Number(k === 1), b: Number(k === 2) } as const;
      const { r, g, b } = filter(unit) as { r: number; g: number; b: number };
      const m = VISIONS[kind];
      [m[k], m[3 + k], m[6 + k]].forEach((value, at) => {
        expect([r, g, b][at]).toBeCloseTo(value, 5);
      });
    }
});

test('around the picture there are only greys, so that no meaning can hang on a hue', () => {
  const sheets = readdirSync(SRC, { recursive: true, encoding: 'utf8' }).filter((name) =>
    name.endsWith('.css'),
  );
  expect(sheets.length).toBeGreaterThan(8);
  for (const name of sheets) {
    const text = readFileSync(SRC + name, 'utf8').replace(/\/\*.*?\*\//gs, '');
    const colours = [...text.matchAll(/#[0-9a-f]{3,8}\b/gi)].map(([hex]) => bytes(hex));
    for (const [, ...rgb] of text.matchAll(/rgba?\((\d+)[ ,]+(\d+)[ ,]+(\d+)/g))
      colours.push(rgb.map(Number) as unknown as Rgb);
    for (const [r, g, b] of colours) expect([name, g, b]).toEqual([name, r, r]);
    expect(text).not.toMatch(
      /\b(?:hsl|hwb|lab|lch|oklab|oklch|color)\(|: ?(?:red|green|blue|orange|yellow|purple)\b/,
    );
  }
});

describe.each(EVERY)('as %s see it', (vision) => {
  test.each(GROUNDS)('text and lines stand out on %s', (block) => {
    const of = (name: string): Rgb => token(name, block);
    for (const ground of ['ground', 'raised']) {
      // WCAG 2.2, 1.4.3 for text and 1.4.11 for what has to be seen.
      expect(contrast(of('ink'), of(ground), vision)).toBeGreaterThanOrEqual(4.5);
      expect(contrast(of('quiet'), of(ground), vision)).toBeGreaterThanOrEqual(4.5);
    }
    expect(contrast(of('edge'), of('ground'), vision)).toBeGreaterThanOrEqual(3);
    // A bar in its track, a mark on its band.
    expect(contrast(of('ink'), of('faint'), vision)).toBeGreaterThanOrEqual(3);
  });

  test.each(WALLS)('words stand out on %s', (block) => {
    expect(contrast(token('wall-ink', block), token('wall', block), vision)).toBeGreaterThanOrEqual(4.5);
  });

  test('a mark on the painting, a dark line on a lighter one, stands out on every colour', () => {
    const STEPS = [0, 32, 64, 96, 128, 160, 192, 224, 255];
    const halo = (under: Rgb): Rgb => under.map((value) => 0.3 * value + 0.7 * 255) as unknown as Rgb;
    let least = Number.POSITIVE_INFINITY;
    for (const r of STEPS)
      for (const g of STEPS)
        for (const b of STEPS) {
          const under: Rgb = [r, g, b];
          const line: Rgb = [0, 0, 0];
          least = Math.min(
            least,
            Math.max(contrast(line, under, vision), contrast(halo(under), under, vision)),
            contrast(line, halo(under), vision),
          );
        }
    expect(least).toBeGreaterThanOrEqual(3);
    expect(TOKENS).toContain('--halo: rgb(255 255 255 / 70%);');
    expect(readFileSync(`${SRC}style/frame.css`, 'utf8')).toMatch(/\.halo \{\s*stroke: var\(--halo\);/);
  });
});

describe('a map has a line around what it says, so that no colour need be told from its faded self', () => {
  const disc = (size: number, radius: number) => ({
    width: size,
    height: size,
    data: Uint8Array.from({ length: size * size }, (_, i) =>
      Math.hypot((i % size) - size / 2 + 0.5, Math.floor(i / size) - size / 2 + 0.5) < radius ? 255 : 0,
    ),
  });
  const pointsOf = (path: string): [number, number][] =>
    [...path.matchAll(/([\d.]+) ([\d.]+)/g)].map(([, x, y]) => [Number(x), Number(y)]);

  test.each([
    [64, 20, 64],
    [160, 50, 800],
  ])('a disc in %d × the same, radius %d, drawn %d wide', (size, radius, drawn) => {
    const points = pointsOf(contour(disc(size, radius), drawn, drawn));
    expect(points.length).toBeGreaterThan(40);
    const scale = drawn / size;
    for (const [x, y] of points)
      expect(Math.abs(Math.hypot(x - drawn / 2, y - drawn / 2) / scale - radius)).toBeLessThan(1.6);
  });

  test('speckles and empty maps have none', () => {
    const speckles = {
      width: 320,
      height: 320,
      data: new Uint8Array(320 * 320).map((_, i) => (i % 5 === 0 ? 255 : 0)),
    };
    expect(contour(speckles, 320, 320)).toBe('');
    expect(contour({ width: 8, height: 8, data: new Uint8Array(64) }, 8, 8)).toBe('');
  });
});
