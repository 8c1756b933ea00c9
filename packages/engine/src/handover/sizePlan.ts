import type { Checked } from '../intent/schema.ts';
import type { SizeSettings } from './settings.ts';

/** Where everything goes: from places of the picture to places of the file. */
export interface SizePlan {
  /** The file, in pixels. */
  readonly width: number;
  readonly height: number;
  /** Where the picture stands in it, whole pixels. */
  readonly place: Box;
  /** What of the picture is shown, in its own pixels; fractions are meant. */
  readonly part: Box;
  /** To be written into the file; null for none. */
  readonly pixelsPerInch: number | null;
  /** True when every pixel of the picture becomes one pixel of the file. */
  readonly asPainted: boolean;
  /** What the artist should know. */
  readonly notes: readonly string[];
}

export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

const LONGEST_SIDE = 60_000;
const MOST_PIXELS = 250e6;

/** Plans the size of the file of a picture; a sentence when it can't be made. */
export function planSize(
  picture: { readonly width: number; readonly height: number },
  size: SizeSettings,
): Checked<SizePlan> {
  const whole: Box = { x: 0, y: 0, width: picture.width, height: picture.height };
  if (size.fit === 'own') {
    const { pixelsPerInch } = size;
    return planned(picture.width, picture.height, whole, whole, pixelsPerInch, []);
  }
  const perUnit = pixelsIn(size);
  const box = {
    width: size.width === null ? Number.POSITIVE_INFINITY : size.width * perUnit,
    height: size.height === null ? Number.POSITIVE_INFINITY : size.height * perUnit,
  };
  const inner = size.fit === 'page' ? 2 * size.margin * perUnit : 0;
  const fits = [(box.width - inner) / picture.width, (box.height - inner) / picture.height];
  const wanted = size.fit === 'fill' ? Math.max(...fits) : Math.min(...fits);
  const held = wanted > 1 && !size.enlarge;
  const scale = held ? 1 : wanted;
  // A print keeps its size on paper, with fewer pixels an inch.
  const thinner = held && size.unit !== 'px' && size.fit !== 'page';
  const pixelsPerInch = size.pixelsPerInch && (thinner ? size.pixelsPerInch / wanted : size.pixelsPerInch);
  const notes = held ? [heldNote(size, pixelsPerInch, thinner)] : [];
  if (size.fit === 'page') {
    const width = Math.round(box.width);
    const height = Math.round(box.height);
    const w = atLeastOne(picture.width * scale);
    const h = atLeastOne(picture.height * scale);
    const place = { x: (width - w) >> 1, y: (height - h) >> 1, width: w, height: h };
    return planned(width, height, place, whole, pixelsPerInch, notes);
  }
  if (size.fit === 'fill') {
    const shrink = held ? wanted : 1;
    const width = atLeastOne(box.width / shrink);
    const height = atLeastOne(box.height / shrink);
    const part = {
      x: (picture.width - width / scale) / 2,
      y: (picture.height - height / scale) / 2,
      width: width / scale,
      height: height / scale,
    };
    return planned(width, height, { x: 0, y: 0, width, height }, part, pixelsPerInch, notes);
  }
  const width = atLeastOne(picture.width * scale);
  const height = atLeastOne(picture.height * scale);
  return planned(width, height, { x: 0, y: 0, width, height }, whole, pixelsPerInch, notes);
}

function planned(
  width: number,
  height: number,
  place: Box,
  part: Box,
  pixelsPerInch: number | null,
  notes: readonly string[],
): Checked<SizePlan> {
  if (Math.max(width, height) > LONGEST_SIDE || width * height > MOST_PIXELS)
    return {
      ok: false,
      trouble: `The file would have ${width} × ${height} pixels; at most ${LONGEST_SIDE} a side and ${MOST_PIXELS / 1e6} megapixels are made. Choose a smaller size or fewer pixels an inch.`,
    };
  const asPainted =
    place.x === 0 &&
    place.y === 0 &&
    width === place.width &&
    height === place.height &&
    part.x === 0 &&
    part.y === 0 &&
    part.width === width &&
    part.height === height;
  return { ok: true, value: { width, height, place, part, pixelsPerInch, asPainted, notes } };
}

function heldNote(size: SizeSettings, pixelsPerInch: number | null, thinner: boolean): string {
  if (thinner && pixelsPerInch)
    return `The picture has fewer pixels than asked for: at this size on paper it has ${Math.round(pixelsPerInch)} pixels an inch.`;
  return size.fit === 'page'
    ? 'The picture has fewer pixels than the page has room for, so that it stands smaller on it.'
    : 'The picture is smaller than asked for and was not enlarged.';
}

function pixelsIn({ unit, pixelsPerInch }: SizeSettings): number {
  if (unit === 'px') return 1;
  return (pixelsPerInch ?? 0) / (unit === 'mm' ? 25.4 : 1);
}

function atLeastOne(n: number): number {
  return Math.max(1, Math.round(n));
}
