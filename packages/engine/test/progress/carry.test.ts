import { describe, expect, test } from 'vitest';
import type { Finding } from '../../src/findings/finding.ts';
import { carryArea, carryIntent, carryRecipe } from '../../src/progress/carry.ts';
import { outcomeOf } from '../../src/progress/outcome.ts';
import { type Pose, SAME_POSE } from '../../src/progress/pose.ts';

/** The right half of the earlier picture. */
const rightHalf: Pose = { ...SAME_POSE, x: 0.5, width: 0.5 };
const square = [0.4, 0.2, 0.6, 0.2, 0.6, 0.4, 0.4, 0.4];

const area = (points: readonly number[]): number => {
  let sum = 0;
  for (let i = 0; i < points.length; i += 2) {
    const j = (i + 2) % points.length;
    sum += points[i] * points[j + 1] - points[j] * points[i + 1];
  }
  return Math.abs(sum) / 2;
};

describe('areas travel to the next version', () => {
  test.each<[string, Pose, number]>([
    ['the same picture', SAME_POSE, 0.04],
    ['mirrored', { ...SAME_POSE, mirrored: true }, 0.04],
    ['a quarter turn', { ...SAME_POSE, turns: 1 }, 0.04],
    ['a crop that cuts it', rightHalf, 0.04],
    ['a crop that only just touches it', { ...SAME_POSE, x: 0.55, width: 0.45 }, (0.05 / 0.45) * 0.2],
  ])('%s', (_, pose, share) => {
    const carried = carryArea(pose, square)!;
    expect(area(carried)).toBeCloseTo(share, 9);
    for (const v of carried) expect(v).toBeGreaterThanOrEqual(0);
    for (const v of carried) expect(v).toBeLessThanOrEqual(1);
  });

  test('what was cropped away is gone, and the focus open again', () => {
    const left = [0.1, 0.1, 0.3, 0.1, 0.2, 0.3];
    expect(carryArea(rightHalf, left)).toBeNull();
    const intent = { schema: 'halflight/intent@1' as const, feel: 'still', focus: { outlines: [left] } };
    expect(carryIntent(rightHalf, intent)).toEqual({ schema: 'halflight/intent@1', feel: 'still' });
  });

  test('areas of the edit go along, steps without an area stay', () => {
    const plain = { kind: 'warmth' as const, on: true, strength: 1, values: {} };
    const parts = [
      { joining: 'add' as const, kind: 'outline' as const, outlines: [square] },
      { joining: 'keep' as const, kind: 'gradient' as const, from: [0.5, 0] as const, to: [1, 1] as const },
      { joining: 'keep' as const, kind: 'values' as const, from: 0, to: 30 },
    ];
    const { steps } = carryRecipe(rightHalf, {
      schema: 'halflight/recipe@1',
      steps: [plain, { ...plain, area: { parts, soften: 0 } }],
    });
    expect(steps[0]).toEqual(plain);
    const [outline, gradient, values] = steps[1].area!.parts;
    expect(outline.kind === 'outline' && area(outline.outlines[0])).toBeCloseTo(0.04, 9);
    expect(gradient).toMatchObject({ from: [0, 0], to: [1, 1] });
    expect(values).toEqual(parts[2]);
  });
});

describe('the next version answers a “will do”', () => {
  const finding = (severity: number, map?: string): Finding => ({
    key: 'detail.overworked',
    reading: 'detail',
    severity,
    text: '',
    number: '',
    todo: '',
    origin: { kind: 'default', text: '' },
    ...(map !== undefined && { map }),
  });
  /** A map that flags the left part of the picture, up to `x`. */
  const flagged = (x: number) => ({
    width: 100,
    height: 10,
    data: Float32Array.from({ length: 1000 }, (_, p) => (p % 100 < 100 * x ? 1 : 0)),
  });
  const seen = (findings: Finding[], x = 0) => [
    { findings, reading: { maps: { overworked: () => flagged(x) } } },
  ];
  const answer = { key: 'detail.overworked', kind: 'willDo' as const, severity: 0.6 };
  const place = [0, 0, 0.5, 0, 0.5, 1, 0, 1];

  test.each([
    ['gone', []],
    ['smaller', [finding(0.4)]],
    ['still', [finding(0.6)]],
    ['still', [finding(0.9)]],
  ] as const)('about the whole: %s', (outcome, findings) => {
    expect(outcomeOf(answer, seen([...findings]))).toBe(outcome);
  });

  test.each([
    ['gone', 0.02],
    ['smaller', 0.2],
    ['still', 0.5],
  ] as const)('about a place: %s', (outcome, x) => {
    expect(outcomeOf({ ...answer, outline: place }, seen([finding(0.6, 'overworked')], x))).toBe(outcome);
  });
});
