import type { Light, Rgb, Scene, Vec } from '../../src/scene/index.ts';

/** Pieces of scenes in which nothing shines but what a test puts there. */
export const WHITE: Rgb = [1, 1, 1];
export const DARK = { up: [0, 0, 0], down: [0, 0, 0] } as const;
export const noSky: Scene['sky'] = (_x, _y, _z, out) => {
  out.fill(0);
};
export const sun = (towards: Vec, colour: Rgb = WHITE, size = 0): Light => ({
  kind: 'sun',
  towards,
  colour,
  size,
});
