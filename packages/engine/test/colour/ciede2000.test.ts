import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { ciede2000 } from '../../src/colour/ciede2000.ts';

// Sharma, Wu & Dalal 2005, table 1, printed to four decimals (oracle/ciede2000.py).
const PAIRS: { p: [number, number, number]; q: [number, number, number]; deltaE: number }[] = JSON.parse(
  readFileSync(new URL('./oracle/ciede2000.json', import.meta.url), 'utf8'),
);

test.each(PAIRS)('CIEDE2000 of $p and $q', ({ p, q, deltaE }) => {
  expect(Math.abs(ciede2000(p, q) - deltaE)).toBeLessThan(5.1e-5);
  expect(Math.abs(ciede2000(q, p) - deltaE)).toBeLessThan(5.1e-5);
});

test('all 34 pairs are there', () => expect(PAIRS).toHaveLength(34));
