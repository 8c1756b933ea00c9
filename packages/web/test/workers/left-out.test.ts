import { expect, test } from 'vitest';
import { leftOutOf } from '../../src/workers/picture/left-out.ts';
import { answer } from '../samples.ts';

const close = { width: 100, height: 50, rgb: new Float32Array(15000), alpha: null, scale: 1 };
const square = [0.25, 0.2, 0.75, 0.2, 0.75, 0.8, 0.25, 0.8];

test('only wrong answers about a place leave something out', () => {
  expect(
    leftOutOf([answer({ kind: 'meantSo', outline: square }), answer({ kind: 'wrong' })], close),
  ).toBeNull();
  const field = leftOutOf([answer({ kind: 'wrong', outline: square })], close);
  const share = field ? field.data.reduce((sum, value) => sum + value, 0) / field.data.length : 0;
  expect(share).toBeCloseTo(0.3, 2);
  expect(field?.data[25 * 100 + 50]).toBe(1);
  expect(field?.data[5 * 100 + 50]).toBe(0);
});

test('an outline that leaves the picture is cut at its border', () => {
  const field = leftOutOf([answer({ kind: 'wrong', outline: [-1, -1, 2, -1, 2, 2, -1, 2] })], close);
  expect(field?.data.every((value) => value === 1)).toBe(true);
});
