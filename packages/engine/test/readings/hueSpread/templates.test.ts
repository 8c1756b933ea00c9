import { expect, test } from 'vitest';
import { STEPS } from '../../../src/readings/hueSpread/histogram.ts';
import {
  fitTemplates,
  TEMPLATE_WORDS,
  TEMPLATES,
  type TemplateName,
  templateOf,
} from '../../../src/readings/hueSpread/templates.ts';

const NAMES = Object.keys(TEMPLATES) as TemplateName[];

/** Colour weight spread evenly over a template that is turned by some degrees. */
function on(name: TemplateName, turn: number): Float64Array {
  const w = new Float64Array(STEPS);
  for (const [middle, width] of TEMPLATES[name])
    for (let h = 0; h < STEPS; h++) {
      const away = Math.abs(((h + 0.5 - turn - middle + 900) % 360) - 180);
      if (away <= width / 2) w[h] = 1;
    }
  const sum = w.reduce((s, v) => s + v, 0);
  return w.map((v) => v / sum);
}

// Cohen-Or et al. 2006, section 3: sizes of the sectors as shares of the circle (5 %, 26 %, 22 %, 50 %).
test.each([
  ['i', [0.05]],
  ['V', [0.26]],
  ['L', [0.05, 0.22]],
  ['I', [0.05, 0.05]],
  ['T', [0.5]],
  ['Y', [0.26, 0.05]],
  ['X', [0.26, 0.26]],
] as [TemplateName, number[]][])('template %s has sectors of the published sizes', (name, parts) => {
  expect(TEMPLATES[name].map(([, width]) => width / 360)).toEqual(parts.map((p) => expect.closeTo(p, 9)));
});

test.each(NAMES)('a picture painted on template %s lies on it', (name) => {
  for (const turn of [20, 175, 301]) {
    const fit = fitTemplates(on(name, turn)).find((f) => f.name === name)!;
    expect(fit.outside).toBeLessThan(0.3);
    const off = Math.abs(((fit.turn - turn + 540) % 360) - 180);
    // I and X look the same after half a turn.
    expect(Math.min(off, name === 'I' || name === 'X' ? Math.abs(180 - off) : off)).toBeLessThan(2);
  }
});

test('the narrowest template that holds the picture is named', () => {
  expect(templateOf(on('i', 80))?.name).toBe('i');
  expect(templateOf(on('I', 80))?.name).toBe('I');
  expect(templateOf(on('X', 10))?.name).toBe('X');
  expect(templateOf(new Float64Array(STEPS).fill(1 / STEPS))).toBeNull();
});

test('every template has words', () => {
  expect(Object.keys(TEMPLATE_WORDS).sort()).toEqual([...NAMES].sort());
});
