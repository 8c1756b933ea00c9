import type { Raster } from '../views/raster.ts';

/** A rectangle in pixels. */
export interface Window {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Places looked at in a row or column. */
const SAMPLES = 480;
/** Share of one code value in most rows of a screen's margin, and at least in each of them. */
const FLAT = 0.5;
const LEAST_FLAT = 0.2;
/** Part of a margin's rows that must be that flat: some have much writing in them. */
const EVEN = 0.7;
/** Flat colours that a margin may have, e.g. of a bar and what is under it; the rows of a gradient have many. */
const MOST_COLOURS = 3;
/** Where the picture begins, no more than this share may look like the margin, by so many code values. */
const ALIKE_SHARE = 0.1;
const ALIKE = 8;
/** What a screenshot must show at least: signs in its margins, margin at all, and picture. Our defaults. */
const SIGNS = [0.002, 0.45] as const;
const LEAST_MARGIN = 0.03;
const LEAST_PICTURE = 0.2;

/**
 * The picture inside a screenshot: surrounded by flat margins in which there are signs (a clock, a name, buttons), and
 * which end abruptly. A margin without any sign may be the painter's own and stays.
 *
 * @returns null when there are no such margins, which a few rows tell for most pictures
 */
export function windowInScreenshot(raster: Raster): Window | null {
  const { width, height } = raster;
  const whole: Window = { x: 0, y: 0, width, height };
  const top = marginOf(raster, whole, 'top');
  const bottom = top < height ? marginOf(raster, whole, 'bottom') : 0;
  const between: Window = { x: 0, y: top, width, height: height - top - bottom };
  if (between.height < 0.2 * height) return null;
  const left = marginOf(raster, between, 'left');
  const right = left < width ? marginOf(raster, between, 'right') : 0;
  const inside: Window = { ...between, x: left, width: width - left - right };
  const area = inside.width > 0 ? (inside.width * inside.height) / (width * height) : 0;
  if (area < LEAST_PICTURE || area > 1 - LEAST_MARGIN) return null;
  const signs = signsAround(raster, inside);
  return signs >= SIGNS[0] && signs <= SIGNS[1] ? inside : null;
}

type Edge = 'top' | 'bottom' | 'left' | 'right';

/** How many rows (or columns) from an edge on are margin; 0 when it does not end abruptly. */
function marginOf(raster: Raster, area: Window, edge: Edge): number {
  const upright = edge === 'top' || edge === 'bottom';
  const count = upright ? area.height : area.width;
  const codesAt = (k: number): number[] =>
    codesOf(raster, area, upright, edge === 'top' || edge === 'left' ? k : count - 1 - k);
  const colours: number[] = [];
  let even = 0;
  for (let k = 0; k < count; k++) {
    const codes = codesAt(k);
    const { code, share } = commonest(codes);
    if (share > FLAT && !colours.includes(code) && colours.length < MOST_COLOURS && !isNext(code, colours))
      colours.push(code);
    const own = Math.max(0, ...colours.map((colour) => shareOf(colour, codes)));
    if (own > LEAST_FLAT) {
      if (own > FLAT) even++;
      continue;
    }
    const alike = codes.filter((one) => colours.some((colour) => isAlike(one, colour))).length;
    return k > 0 && even >= EVEN * k && alike <= ALIKE_SHARE * codes.length ? k : 0;
  }
  return 0;
}

/** A colour that goes on from one before is the next row of a gradient, not of another bar. */
const isNext = (code: number, colours: readonly number[]): boolean =>
  colours.some((colour) => isAlike(code, colour));

const STRIDE = 65536;
/** Three code values in one number. */
const packed = (r: number, g: number, b: number): number => (r * STRIDE + g) * STRIDE + b;

function isAlike(a: number, b: number): boolean {
  for (let rest = 0; rest < 3; rest++) {
    const by = STRIDE ** rest;
    if (Math.abs((Math.floor(a / by) % STRIDE) - (Math.floor(b / by) % STRIDE)) > ALIKE) return false;
  }
  return true;
}

/** Code values along a row or column, at most `SAMPLES`; those of 16 bit as if they had 8. */
function codesOf({ width, channels, depth, data }: Raster, area: Window, row: boolean, k: number): number[] {
  const length = row ? area.width : area.height;
  const n = Math.min(SAMPLES, length);
  const shift = depth - 8;
  return Array.from({ length: n }, (_, s) => {
    const along = Math.floor(((s + 0.5) * length) / n);
    const [x, y] = row ? [area.x + along, area.y + k] : [area.x + k, area.y + along];
    const i = channels * (y * width + x);
    return packed(data[i] >> shift, data[i + 1] >> shift, data[i + 2] >> shift);
  });
}

const shareOf = (colour: number, codes: readonly number[]): number =>
  codes.filter((code) => code === colour).length / codes.length;

function commonest(codes: readonly number[]): { code: number; share: number } {
  const counts = new Map<number, number>();
  let [code, most] = [codes[0], 0];
  for (const one of codes) {
    const seen = (counts.get(one) ?? 0) + 1;
    counts.set(one, seen);
    if (seen > most) [code, most] = [one, seen];
  }
  return { code, share: most / codes.length };
}

/** Share of the margins that is not of its row's or column's own flat colour. */
function signsAround(raster: Raster, inside: Window): number {
  const { width, height } = raster;
  let [signs, rows] = [0, 0];
  const add = (area: Window, row: boolean): void => {
    const count = row ? area.height : area.width;
    if (Math.min(area.width, area.height) < 1) return;
    for (let k = 0; k < count; k++) {
      const weight = row ? area.width : area.height;
      signs += weight * (1 - commonest(codesOf(raster, area, row, k)).share);
      rows += weight;
    }
  };
  add({ x: 0, y: 0, width, height: inside.y }, true);
  add({ x: 0, y: inside.y + inside.height, width, height: height - inside.y - inside.height }, true);
  add({ x: 0, y: inside.y, width: inside.x, height: inside.height }, false);
  add(
    {
      x: inside.x + inside.width,
      y: inside.y,
      width: width - inside.x - inside.width,
      height: inside.height,
    },
    false,
  );
  return rows > 0 ? signs / rows : 0;
}
