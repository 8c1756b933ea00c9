import { describe, expect, test } from 'vitest';
import type { LayerReading, LayersReading } from '../../../src/layers/read.ts';
import { openDecisions } from '../../../src/readings/openDecisions/openDecisions.ts';
import type { ReadingInput } from '../../../src/readings/reading.ts';

const layer = (path: string, more: Partial<LayerReading> = {}): LayerReading => ({
  path,
  name: path,
  visible: true,
  group: false,
  worth: { mean: 3, p95: 9, map: { width: 1, height: 1, data: new Float32Array(1) } },
  areaShare: 0.5,
  redundant: false,
  why: null,
  kind: 'paint',
  mergeableWith: null,
  without: null,
  ...more,
});
const input = (layers: LayersReading | null, layerLimit?: number): ReadingInput =>
  ({ layers, intent: { schema: 'halflight/intent@1', ...(layerLimit && { layerLimit }) } }) as ReadingInput;
const found = (layers: LayersReading, limit?: number): string[] => {
  const given = input(layers, limit);
  return openDecisions.findings(openDecisions.read(given), given).map(({ key }) => key);
};
const many = (count: number): LayerReading[] => Array.from({ length: count }, (_, i) => layer(`layer ${i}`));

/** The default limit of eight layers is ours. */
describe('open decisions', () => {
  test('a picture without layers is not asked', () => {
    const { evidence, value } = openDecisions.read(input(null));
    expect(evidence).toMatchObject({ level: 'weak', unasked: true });
    expect(value.layers).toBeNull();
  });

  test.each<[string, LayersReading, number | undefined, string[]]>([
    ['few layers, all decided', { layers: many(4), options: [], merges: [] }, undefined, []],
    ['as many as may be', { layers: many(8), options: [], merges: [] }, undefined, []],
    ['one more', { layers: many(9), options: [], merges: [] }, undefined, ['openDecisions.many']],
    ['more than the intent allows', { layers: many(4), options: [], merges: [] }, 3, ['openDecisions.many']],
    [
      'a choice: one of the two counts',
      { layers: many(9), options: [['layer 1', 'layer 2']], merges: [] },
      undefined,
      ['openDecisions.options'],
    ],
    [
      'layers that show nothing do not count as kept apart',
      {
        layers: [...many(8), layer('forgotten', { redundant: true }), layer('group', { group: true })],
        options: [],
        merges: [],
      },
      undefined,
      ['openDecisions.idle'],
    ],
  ])('%s', (_, layers, limit, keys) => {
    expect(found(layers, limit)).toEqual(keys);
  });

  test('says which, in sentences', () => {
    const given = input({
      layers: [layer('dusk'), layer('dusk, warmer', { visible: false }), layer('wash', { redundant: true })],
      options: [['dusk', 'dusk, warmer']],
      merges: [],
    });
    const findings = openDecisions.findings(openDecisions.read(given), given);
    expect(findings.map(({ text }) => text)).toEqual([
      'One choice is left open: “dusk” or “dusk, warmer”.',
      'One layer shows nothing.',
    ]);
    expect(openDecisions.draw(openDecisions.read(given), given).sentence).toContain('show');
  });
});
