import type { Raster } from '../views/raster.ts';
import { figureOnGround, hasEvenRim } from './ground.ts';
import type { Corners } from './homography.ts';
import { windowInScreenshot } from './margins.ts';
import { fitQuadrilateral, type Quadrilateral } from './quadrilateral.ts';
import { smallLab } from './small.ts';
import { straighten } from './straighten.ts';

/** Where the work is in a photograph or screenshot of it. */
export interface FoundSheet {
  readonly kind: 'photograph' | 'screenshot';
  /** In pixels of the picture, from the upper left on clockwise. */
  readonly corners: Corners;
}

/** A work as it is read: upright and alone, with what was done to get there. */
export interface TakenOut {
  readonly raster: Raster;
  /** True for a photograph or screenshot: its light must not be judged. */
  readonly photographed: boolean;
  /** One sentence for the person who reads the numbers; null for a clean export, which is left as it is. */
  readonly note: string | null;
  readonly found: FoundSheet | null;
}

const LONG_SIDE = 480;
/** What a sheet must be like. Our defaults, set so that no painting is taken for one (docs/class.md). */
const LEAST_AREA = 0.2;
const LEAST_AREA_UNTOLD = 0.35;
const MOST_AREA = 0.985;
const SHARP = 0.85;
const BENT = 0.003;
const MISFIT = 0.03;
/** A clean export stands upright: without a camera's word, sides must lean by so much (degrees). */
const LEANS = 0.6;

/**
 * Finds the work in a photograph (a quadrilateral on an even ground) or in a screenshot (flat margins with signs).
 *
 * @param byCamera true when the file says that a camera took it
 * @returns null for anything else, clean exports above all
 */
export function findSheet(raster: Raster, byCamera: boolean): FoundSheet | null {
  const sheet = photographed(raster, byCamera);
  if (sheet) return { kind: 'photograph', corners: sheet };
  if (byCamera) return null;
  const window = windowInScreenshot(raster);
  if (!window) return null;
  const { x, y, width, height } = window;
  return {
    kind: 'screenshot',
    corners: [
      [x, y],
      [x + width, y],
      [x + width, y + height],
      [x, y + height],
    ],
  };
}

function photographed(raster: Raster, byCamera: boolean): Corners | null {
  if (raster.width < 64 || raster.height < 64) return null;
  if (!hasEvenRim(smallLab(raster, LONG_SIDE, 'rim'))) return null;
  const small = smallLab(raster, LONG_SIDE);
  const figure = figureOnGround(small);
  const cells = small.width * small.height;
  if (!figure || figure.cells < 0.8 * (byCamera ? LEAST_AREA : LEAST_AREA_UNTOLD) * cells) return null;
  const quad = fitQuadrilateral(small, figure);
  if (!quad || !isSheet(quad, cells, byCamera)) return null;
  return quad.corners.map(([x, y]) => [x * small.scale, y * small.scale]) as unknown as Corners;
}

function isSheet(
  { corners, sharpness, bend, misfit }: Quadrilateral,
  cells: number,
  byCamera: boolean,
): boolean {
  const area = areaOf(corners) / cells;
  if (area < (byCamera ? LEAST_AREA : LEAST_AREA_UNTOLD) || area > MOST_AREA) return false;
  if (sharpness < SHARP || bend > BENT || misfit > MISFIT) return false;
  return byCamera || leanOf(corners) >= LEANS;
}

function areaOf(corners: Corners): number {
  let twice = 0;
  for (let k = 0; k < 4; k++) {
    const [a, b] = [corners[k], corners[(k + 1) % 4]];
    twice += a[0] * b[1] - a[1] * b[0];
  }
  return Math.abs(twice) / 2;
}

/** The largest angle of a side to the edges of the picture, degrees. */
function leanOf(corners: Corners): number {
  const leans = corners.map(([x, y], k) => {
    const [u, v] = corners[(k + 1) % 4];
    const angle = (Math.atan2(v - y, u - x) * 180) / Math.PI;
    return Math.abs(angle - 90 * Math.round(angle / 90));
  });
  return Math.max(...leans);
}

/**
 * The work alone: cut out and straightened where it is photographed or a screenshot, the picture itself otherwise.
 *
 * @param byCamera true when the file says that a camera took it
 */
export function takeOut(raster: Raster, byCamera: boolean): TakenOut {
  const found = findSheet(raster, byCamera);
  if (found?.kind === 'screenshot') {
    return {
      raster: crop(raster, found.corners),
      photographed: true,
      note: 'It is a screenshot: the picture was cut out of its margins, and its light is not judged.',
      found,
    };
  }
  if (found) {
    return {
      raster: straighten(raster, found.corners),
      photographed: true,
      note: 'It is a photograph of a work: the work was cut out and straightened, and its light is not judged.',
      found,
    };
  }
  return {
    raster,
    photographed: byCamera,
    note: byCamera
      ? 'A camera took it, and no edges of a work were found: it is read whole, and its light is not judged.'
      : null,
    found: null,
  };
}

/** Whole pixels, as they are. */
function crop(raster: Raster, [[x, y], , [right, bottom]]: Corners): Raster {
  const { channels } = raster;
  const [width, height] = [right - x, bottom - y];
  const data = raster.data.slice(0, channels * width * height);
  for (let row = 0; row < height; row++) {
    const from = channels * ((y + row) * raster.width + x);
    data.set(raster.data.subarray(from, from + channels * width), channels * row * width);
  }
  return { ...raster, width, height, data };
}
