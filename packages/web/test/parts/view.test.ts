import fc from 'fast-check';
import { expect, test } from 'vitest';
import { moveBy, pictureShare, visiblePart, wholeView, zoomAt } from '../../src/parts/stage/view.ts';

const size = fc.record({
  width: fc.integer({ min: 1, max: 9000 }),
  height: fc.integer({ min: 1, max: 9000 }),
});
const stage = fc.record({
  width: fc.integer({ min: 120, max: 4000 }),
  height: fc.integer({ min: 120, max: 2200 }),
});

test('the whole picture lies on the stage, in its middle', () => {
  fc.assert(
    fc.property(size, stage, (picture, room) => {
      const { scale, x, y } = wholeView(picture, room);
      expect(scale).toBeLessThanOrEqual(1);
      expect(x).toBeCloseTo((room.width - picture.width * scale) / 2, 6);
      expect(y).toBeCloseTo((room.height - picture.height * scale) / 2, 6);
      expect(Math.min(x, y)).toBeGreaterThanOrEqual(0);
    }),
  );
});

test('zooming holds the place under the pointer where the picture fills the stage', () => {
  const picture = { width: 4000, height: 3000 };
  const room = { width: 1000, height: 800 };
  const near = zoomAt(wholeView(picture, room), 8, { x: 500, y: 400 }, picture, room);
  const at = { x: 620, y: 333 };
  const nearer = zoomAt(near, 1.7, at, picture, room);
  const before = pictureShare(near, at, picture);
  const after = pictureShare(nearer, at, picture);
  expect(after?.x).toBeCloseTo(before?.x ?? 0, 9);
  expect(after?.y).toBeCloseTo(before?.y ?? 0, 9);
});

test('zooming out ends at the whole picture', () => {
  fc.assert(
    fc.property(size, stage, (picture, room) => {
      const whole = wholeView(picture, room);
      const near = zoomAt(whole, 5, { x: 10, y: 10 }, picture, room);
      const back = zoomAt(near, 1e-6, { x: 90, y: 30 }, picture, room);
      expect(back.scale).toBeCloseTo(whole.scale, 9);
      expect(back.x).toBeCloseTo(whole.x, 6);
    }),
  );
});

test('what is visible stays inside the picture, however far it is moved', () => {
  fc.assert(
    fc.property(size, stage, fc.integer({ min: -9999, max: 9999 }), (picture, room, by) => {
      const view = moveBy(
        zoomAt(wholeView(picture, room), 6, { x: 0, y: 0 }, picture, room),
        by,
        -by,
        picture,
        room,
      );
      const part = visiblePart(view, picture, room);
      expect(part).not.toBeNull();
      if (part === null) return;
      expect(part.x).toBeGreaterThanOrEqual(0);
      expect(part.x + part.width).toBeLessThanOrEqual(picture.width);
      expect(part.y + part.height).toBeLessThanOrEqual(picture.height);
    }),
  );
});

test('beside the picture nothing is read', () => {
  const view = { scale: 0.5, x: 100, y: 50 };
  const picture = { width: 200, height: 100 };
  expect(pictureShare(view, { x: 99, y: 60 }, picture)).toBeNull();
  expect(pictureShare(view, { x: 150, y: 75 }, picture)).toEqual({ x: 0.5, y: 0.5 });
  expect(pictureShare(view, { x: 200, y: 75 }, picture)).toBeNull();
});
