import { describe, expect, test } from 'vitest';
import { progressCurve, type Stage } from '../../src/progress/curve.ts';
import { SAME_POSE } from '../../src/progress/pose.ts';
import { stripLayout } from '../../src/progress/strip.ts';

/** Stages from impact, share changed and effort of each version after the first. */
function stages(...changes: ([number, number, number] | null)[]): Stage[] {
  return [null, ...changes].map((c, k) => ({
    version: k + 1,
    change: c && { impact: c[0], changedShare: c[1], effort: c[2] },
    minutes: 30,
  }));
}

describe('the curve of effort and impact', () => {
  test('adds up what each version brought and cost', () => {
    const { points } = progressCurve(stages([6, 0.9, 0.4], [2, 0.5, 0.2]));
    expect(points.map(({ effort, impact, minutes }) => [Number(effort.toFixed(6)), impact, minutes])).toEqual(
      [
        [0, 0, 0],
        [0.4, 6, 30],
        [0.6, 8, 60],
      ],
    );
  });

  test('minutes that are not known are not made up', () => {
    const [a, b] = stages([1, 1, 1]);
    expect(progressCurve([a, { version: 2, change: b.change }]).points.map((p) => p.minutes)).toEqual([
      0,
      null,
    ]);
  });
});

describe('diminishing returns', () => {
  const busy: [number, number, number] = [0.1, 0.002, 0.03];
  test('four versions of strokes that leave the picture as it was', () => {
    const { diminishing } = progressCurve(stages([8, 1, 0.5], busy, busy, busy, busy));
    expect(diminishing?.versions).toBe(4);
    expect(diminishing?.effort).toBeCloseTo(1 - 0.97 ** 4, 9);
    expect(diminishing?.sentence).toBe(
      'The last four versions changed 11 % of the fine detail and under 1 % of the picture.',
    );
  });

  test.each<[string, Stage[]]>([
    ['the last version changed the picture', stages([8, 1, 0.5], busy, [3, 0.6, 0.01])],
    ['a veil: impact without effort', stages([8, 1, 0.5], [6, 1, 0.001])],
    ['nothing was done', stages([8, 1, 0.5], [0, 0, 0], [0, 0, 0])],
    ['too little was done to tell', stages([8, 1, 0.5], [0.05, 0, 0.01])],
    ['the last version is another picture', stages(busy, busy, null)],
    ['there is only one version', stages()],
  ])('is not spoken of when %s', (_, given) => {
    expect(progressCurve(given).diminishing).toBeNull();
  });

  test('what a crop or another size does to the pixels is no work', () => {
    const [first, crop, scaled, painted] = stages([0.1, 0, 0.1], [0.1, 0, 0.1], [0.1, 0, 0.08]);
    const rows: Stage[] = [
      { ...first, size: [900, 600] },
      { ...crop, size: [600, 600], change: { ...crop.change!, pose: { ...SAME_POSE, width: 2 / 3 } } },
      { ...scaled, size: [300, 300], change: { ...scaled.change!, pose: SAME_POSE } },
    ];
    expect(progressCurve(rows).diminishing).toBeNull();
    const turned = { ...painted, size: [300, 300] as const, change: { ...painted.change!, pose: SAME_POSE } };
    const { diminishing } = progressCurve([...rows, turned]);
    expect(diminishing?.versions).toBe(1);
    expect(diminishing?.effort).toBeCloseTo(0.08, 9);
  });

  test('small impacts that add up to a visible one end the row', () => {
    const { diminishing } = progressCurve(
      stages(...Array.from({ length: 6 }, () => [0.3, 0.02, 0.1] as [number, number, number])),
    );
    expect(diminishing?.versions).toBe(3);
  });
});

test('the strip hangs no picture over another, the more effort the farther, the more impact the higher', () => {
  const { points } = progressCurve(stages([8, 1, 0.5], [2, 0.5, 0.1], [0, 0, 0]));
  const { pictures, width, height } = stripLayout(
    points,
    [
      [3, 2],
      [3, 2],
      [2, 3],
      [3, 2],
    ],
    120,
  );
  for (let k = 1; k < pictures.length; k++) {
    const gap = pictures[k].x - pictures[k - 1].x - pictures[k - 1].width;
    expect(gap).toBeCloseTo(16 + 120 * [0, 0.5, 0.1, 0][k], 6);
    expect(pictures[k].y + pictures[k].height).toBeLessThanOrEqual(
      pictures[k - 1].y + pictures[k - 1].height,
    );
  }
  for (const { x, y, width: w, height: h } of pictures) {
    expect(Math.min(x, y, width - x - w, height - y - h)).toBeGreaterThanOrEqual(0);
  }
});
