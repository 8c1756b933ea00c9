import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp, { type Sharp } from 'sharp';
import { afterAll } from 'vitest';

/** A picture made for a test: code values of three channels, row by row. */
export interface Made {
  readonly width: number;
  readonly height: number;
  readonly data: Uint8Array;
}

/** A picture from a function of place (0…1) to code values. */
export function paint(
  width: number,
  height: number,
  colour: (x: number, y: number) => readonly number[],
): Made {
  const data = new Uint8Array(3 * width * height);
  for (let j = 0; j < height; j++)
    for (let i = 0; i < width; i++)
      data.set(colour((i + 0.5) / width, (j + 0.5) / height), 3 * (j * width + i));
  return { width, height, data };
}

const PATCHES = [
  [200, 40, 40],
  [220, 140, 20],
  [60, 170, 40],
  [20, 160, 170],
  [60, 60, 200],
  [170, 40, 180],
] as const;

/** Six strong hues on a blue evening, with a black corner: it has something to find. */
export const motley = paint(600, 400, (x, y) => {
  if (y > 0.8) return [0, 0, 0];
  const column = Math.floor(x * 6);
  if (y > 0.35 && y < 0.65 && x * 6 - column > 0.2) return PATCHES[column];
  return [70 + 60 * y, 80 + 40 * y, 130 + 20 * y];
});

/** One quiet hue from dark to light: nothing to find. */
export const calm = paint(900, 600, (x, y) => {
  const t = 0.25 + 0.5 * y + 0.1 * Math.sin(6 * x) + (x > 0.4 && x < 0.6 && y > 0.5 ? 0.15 : 0);
  return [40 + 120 * t, 50 + 130 * t, 80 + 140 * t];
});

/** Four flat quarters with known code values. */
export const quarters = paint(800, 600, (x, y) =>
  y < 0.5 ? (x < 0.5 ? [18, 200, 97] : [119, 119, 119]) : x < 0.5 ? [250, 120, 20] : [30, 40, 120],
);

/** A folder for files of one test file; gone when its tests are done. */
export function folder() {
  const path = mkdtempSync(join(tmpdir(), 'halflight-e2e-'));
  afterAll(() => rmSync(path, { recursive: true, force: true }));
  const at = (name: string): string => join(path, name);
  return {
    path,
    /** Writes bytes and returns the path. */
    bytes(name: string, content: Uint8Array | string): string {
      writeFileSync(at(name), content);
      return at(name);
    },
    /** Writes a picture with sharp, in the format that its name tells. */
    async picture(name: string, made: Made, change = (image: Sharp) => image): Promise<string> {
      const { width, height, data } = made;
      await change(sharp(data, { raw: { width, height, channels: 3 } })).toFile(at(name));
      return at(name);
    },
  };
}
