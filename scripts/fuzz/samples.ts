import type { Raster } from '@halflight/engine';
import { SRGB } from '@halflight/engine';

/** A small landing at blue hour with a lamp: enough colours for every step and reading to work on. */
export const PAINTING: Raster = {
  width: 48,
  height: 32,
  channels: 3,
  depth: 8,
  space: SRGB,
  data: Uint8Array.from({ length: 48 * 32 * 3 }, (_, i) => {
    const [x, y, c] = [Math.floor(i / 3) % 48, Math.floor(i / 144), i % 3];
    const lamp = Math.hypot(x - 30, y - 14) < 5;
    return lamp ? [250, 180, 90][c] : [40 + x, 50 + 2 * y, 110 + x + y][c];
  }),
};

const THREE = [0.1, 0.02, 0.3];
const NINE = [0.02, 0, 0, 0, 0.01, 0, 0, 0, 0.01];
const HALF = {
  parts: [
    { joining: 'add', kind: 'outline', outlines: [[0.1, 0.1, 0.9, 0.1, 0.9, 0.6, 0.1, 0.6]] },
    { joining: 'subtract', kind: 'values', from: 0, to: 0.2 },
    { joining: 'keep', kind: 'gradient', from: [0, 0], to: [1, 1] },
  ],
  soften: 0.2,
};
const FROM_TO = { from: { mean: THREE, covariance: NINE }, to: { mean: [0.5, 0, 0], covariance: NINE } };
const step = (kind: string, values: object, more: object = {}) => ({
  kind,
  on: true,
  strength: 0.8,
  values,
  ...more,
});

/** Recipes with every step, areas and data. */
export const RECIPES: readonly object[] = [
  {
    schema: 'halflight/recipe@1',
    steps: [
      step('exposure', { stops: 0.5 }, { area: HALF, reason: 'too dark' }),
      step('warmth', {}),
      step('hueTurn', {}),
      step('chroma', {}),
      step('contrast', {}),
    ],
  },
  {
    schema: 'halflight/recipe@1',
    steps: [
      step(
        'gatherHues',
        {},
        { data: { families: [{ hue: 260, width: 40 }], keep: [{ hue: 80, width: 30 }] } },
      ),
      step('calmStrays', {}, { data: { families: [{ hue: 260, width: 40 }] } }),
      step('openEnds', {}),
      step('veil', {}, { data: { colour: [0.3, 0.4, 0.6] }, area: HALF }),
      step('accent', {}, { data: { families: [{ hue: 60, width: 20 }] } }),
    ],
    kept: [[0.2, 0.2, 0.4, 0.2, 0.3, 0.5]],
  },
  {
    schema: 'halflight/recipe@1',
    steps: [
      step('match', {}, { data: FROM_TO }),
      step('relight', {}, { data: { gains: [1.1, 1, 0.8] } }),
      step('valueGroups', {}),
    ],
  },
];

const TARGET = { at: 0.4, tolerance: 0.1 };

/** Intents with every part decided. */
export const INTENTS: readonly object[] = [
  {
    schema: 'halflight/intent@1',
    mood: { words: ['serene'], axes: { warmCool: TARGET, key: TARGET }, weights: { key: 2 } },
    light: { kind: 'situation', name: 'lampAtBlueHour' },
    focus: { outlines: [[0.5, 0.3, 0.8, 0.3, 0.7, 0.6]] },
    hue: { families: [{ hue: 260, width: 60 }], accent: { hue: 70, width: 30 }, limit: 3 },
    feel: 'somebody waits',
    delivery: { space: 'display-p3', longSide: 2400 },
    layerLimit: 12,
  },
  {
    schema: 'halflight/intent@1',
    mood: {
      examples: [
        { name: 'landing', mean: THREE, covariance: NINE.slice(0, 6), measures: { key: 0.4, contrast: 0.3 } },
      ],
      ownWords: { misty: { softness: TARGET } },
      words: ['misty'],
    },
    light: { kind: 'surface', lit: [0.6, 0.4, 0.3], shade: [0.1, 0.1, 0.2] },
    hue: { families: [] },
  },
  { schema: 'halflight/intent@1', light: { kind: 'asRead' } },
];

const RANGE = { p10: 0.1, p50: 0.3, p90: 0.9 };

/** Baselines of an artist. */
export const BASELINES: readonly object[] = [
  {
    schema: 'halflight/baseline@1',
    works: 12,
    measures: {
      'hueSpread.effectiveHues': { p10: 1, p50: 2, p90: 4 },
      'headroom.exposureUp': RANGE,
      'headroom.endsShare': RANGE,
      'value.key': RANGE,
      'value.range': RANGE,
      'detail.outsideFocusShare': RANGE,
      'mood.warmCool': RANGE,
    },
  },
];
