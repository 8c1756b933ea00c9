import { SRGB } from '@halflight/engine';
import { expect, test } from 'vitest';
import type { Looked } from '../../src/check/look.ts';
import { report } from '../../src/check/text.ts';
import { PLAIN, styleOf } from '../../src/terminal/style.ts';

const LOOKED: Looked = {
  picture: { name: 'dusk.png', width: 2400, height: 1500, depth: 8, profile: 'Display P3', tagged: true },
  notes: ['It is named .jpg, but is a PNG.'],
  readings: [
    {
      id: 'hueSpread',
      title: 'Hue spread',
      value: {},
      findings: [],
      evidence: { level: 'fair', reason: 'Only a tenth of the picture has a hue.' },
      fine: null,
      measures: [],
    },
    {
      id: 'value',
      title: 'Value',
      value: {},
      findings: [],
      evidence: { level: 'strong', reason: 'The whole picture counts.' },
      fine: 'Three clear value groups.',
      measures: [],
    },
    {
      id: 'light',
      title: 'Light',
      value: {},
      findings: [],
      evidence: { level: 'weak', reason: 'No surface is seen both lit and shaded.' },
      fine: null,
      measures: [],
    },
  ],
  findings: [
    {
      key: 'hueSpread.many',
      reading: 'hueSpread',
      severity: 0.7,
      text: 'Many hues pull in different directions, and none of them leads the eye to where it should rest.',
      number: 'a spread of 4.1; many from 3.5 on',
      todo: 'Gather the greens towards the blue of the sky.',
      origin: { kind: 'default', text: 'our default' },
    },
  ],
  undecided: ['the mood', 'the light', 'the focus'],
  space: SRGB,
  strips: {
    hues: [{ weight: 1, colour: '#3050a0' }],
    values: [{ colour: '#3050a0', grey: '#4c4c4c' }],
  },
};

test('says the findings first, then what is fine, unsure and open', () => {
  expect(report(LOOKED, PLAIN)).toMatchInlineSnapshot(`
    "dusk.png
    2400 × 1500, 8 bit, Display P3

    Many hues pull in different directions, and none of them leads the eye
    to where it should rest.
      A spread of 4.1; many from 3.5 on. Fairly sure: only a tenth of the
      picture has a hue.
      Gather the greens towards the blue of the sky.

    Fine
      Three clear value groups.

    Can’t tell
      Light: no surface is seen both lit and shaded.

    Not decided yet: the mood, the light and the focus.

    It is named .jpg, but is a PNG.
    "
  `);
});

test('is plain without colour: no escapes and no strips', () => {
  const text = report(LOOKED, PLAIN);
  expect(text).not.toContain('\u001b');
  expect(text).not.toMatch(/[▀-█]/);
});

test('draws both strips in the picture’s colours where there is colour', () => {
  const text = report(LOOKED, styleOf({ isTTY: false }, { FORCE_COLOR: '3' }));
  expect(text).toContain('\u001b[38;2;48;80;160m█');
  expect(text).toContain('\u001b[38;2;48;80;160m\u001b[48;2;76;76;76m▀');
});

test('keeps its lines short', () => {
  for (const line of report(LOOKED, PLAIN).split('\n')) expect(line.length).toBeLessThanOrEqual(72);
});

test('a picture without findings hears so', () => {
  expect(report({ ...LOOKED, findings: [] }, PLAIN)).toContain('Nothing stands in its way.');
});
