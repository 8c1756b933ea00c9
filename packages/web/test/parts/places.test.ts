import type { Finding, Place } from '@halflight/engine';
import { expect, test } from 'vitest';
import { isInPlace, noteAt, outlinePath } from '../../src/parts/stage/places.ts';

const place = (x: number, y: number, side: number, outline?: number[]): Place => ({
  x,
  y,
  width: side,
  height: side,
  share: side * side,
  ...(outline && { outline }),
});
const finding = (key: string, ...places: Place[]): Finding => ({
  key,
  reading: 'light',
  severity: 1,
  text: '',
  number: '',
  todo: '',
  origin: { kind: 'default', text: '' },
  places,
});

test.each([
  ['box, inside', place(0.2, 0.2, 0.2), 0.3, 0.3, true],
  ['box, outside', place(0.2, 0.2, 0.2), 0.5, 0.3, false],
  ['triangle, inside', place(0, 0, 1, [0, 0, 1, 0, 0, 1]), 0.2, 0.2, true],
  ['triangle, in its box only', place(0, 0, 1, [0, 0, 1, 0, 0, 1]), 0.8, 0.8, false],
])('%s', (_name, it, x, y, expected) => {
  expect(isInPlace(it, x, y)).toBe(expected);
});

test('a point belongs to the note with the smallest place around it', () => {
  const notes = [finding('wide', place(0, 0, 1)), finding('small', place(0.4, 0.4, 0.2)), finding('nowhere')];
  expect(noteAt(notes, 0.5, 0.5)).toBe('small');
  expect(noteAt(notes, 0.1, 0.9)).toBe('wide');
  expect(noteAt([finding('nowhere')], 0.5, 0.5)).toBeNull();
});

test('an outline becomes a closed path in the units of the page, from middle to middle of its sides', () => {
  expect(outlinePath([0, 0, 0.5, 0, 0.5, 1], 200, 100)).toBe(
    'M50.0 0.0Q100.0 0.0 100.0 50.0Q100.0 100.0 50.0 50.0Q0.0 0.0 50.0 0.0Z',
  );
});
