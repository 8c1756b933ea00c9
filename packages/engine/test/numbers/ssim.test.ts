import { expect, test } from 'vitest';
import { structuralSimilarity } from '../../src/numbers/ssim.ts';
import type { Field } from '../../src/views/view.ts';
import reference from '../readings/value/oracle/structuralSimilarity.json' with { type: 'json' };

// The maps of ../readings/value/oracle/structural_similarity.py.
function first(width: number, height: number): Field {
  return fill(
    width,
    height,
    (x, y) => 50 + 20 * Math.sin(x / 5) + 15 * Math.cos(y / 7) + ((x * 7 + y * 13) % 11),
  );
}

const SECOND: Record<string, (a: number, x: number, y: number) => number> = {
  same: (a) => a,
  lighter: (a) => a + 12,
  flatter: (a) => 50 + 0.4 * (a - 50),
  'three tones': (a) => (a < 40 ? 30 : a < 60 ? 50 : 72),
  grain: (a, x, y) => a + ((x * 31 + y * 17) % 23) - 11,
  unrelated: (_, x, y) => 50 + 25 * Math.cos((x + y) / 3),
};

function fill(width: number, height: number, at: (x: number, y: number) => number): Field {
  const data = Float32Array.from({ length: width * height }, (_, p) => at(p % width, Math.floor(p / width)));
  return { width, height, data };
}

test.each(reference.pairs)('$kind, $width × $height: as scikit-image', ({ width, height, kind, ssim }) => {
  const a = first(width, height);
  const b = fill(width, height, (x, y) => SECOND[kind](a.data[y * width + x], x, y));
  // Maps are Float32, the reference is in doubles.
  expect(structuralSimilarity(a, b, reference.range)).toBeCloseTo(ssim, 5);
});

test('places without weight do not count', () => {
  const a = first(40, 28);
  const b = fill(40, 28, (x, y) => a.data[y * 40 + x] + (x < 20 ? 0 : 30));
  const left = Float32Array.from({ length: 40 * 28 }, (_, p) => (p % 40 < 14 ? 1 : 0));
  expect(structuralSimilarity(a, b, 100, left)).toBeCloseTo(1, 6);
});

test('maps smaller than the window have no similarity', () => {
  expect(structuralSimilarity(first(10, 40), first(10, 40), 100)).toBeNull();
});
