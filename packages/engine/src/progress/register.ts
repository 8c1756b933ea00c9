import { type Plane, planeOf, readAt } from '../numbers/plane.ts';
import { lightnessPlane } from '../views/lightnessPlane.ts';
import { reduceView } from '../views/resample.ts';
import type { View } from '../views/view.ts';
import { correlate } from './correlate.ts';
import { finest, standsOut } from './evidence.ts';
import { phaseCorrelation, spectrumOf } from './phaseCorrelation.ts';
import { type Pose, SAME_POSE, toEarlier, toLater } from './pose.ts';

/** Long side of the earlier picture while searching. */
const SEARCH = 64;
/** Correlation from which two pictures are taken for versions of one, and from which the search ends: our default. */
const ALIKE = 0.5;
const CERTAIN = 0.93;
/** Correlation, and difference of L* at every place, up to which a picture without detail is the same: our default. */
const SOFT = 0.98;
const SAME_LIGHT = 3;

export interface Registration {
  readonly pose: Pose;
  /** Correlation of lightness over what both show, −1…1. */
  readonly correlation: number;
}

/**
 * Finds how a later version lies on an earlier one: same size, scaled, cropped, extended, mirrored, quarter turned.
 *
 * @returns null when nothing fits: probably another picture
 */
export function register(earlier: View, later: View): Registration | null {
  const a = lightnessPlane(reduceView(earlier, SEARCH));
  const still = correlate(a, lightnessPlane(reduceView(later, SEARCH)), SAME_POSE);
  const [w, h] = fileSize(earlier);
  const [u, v] = fileSize(later);
  if (w === u && h === v) {
    // Nearly every version is saved as large as the one before; a new dark mass may still lead the search astray.
    const unmoved = { pose: SAME_POSE, correlation: still };
    if (standsOut(earlier, later, SAME_POSE) || (still > CERTAIN && alike(earlier, later, unmoved)))
      return unmoved;
  }

  const spectrum = spectrumOf(a, 2 * SEARCH);
  let best = null as Registration | null;
  const look = (factor: number, mirrored: boolean, turns: Pose['turns']): void => {
    const found = tryPose({ earlier, a, spectrum }, later, factor, mirrored, turns);
    if (found && found.correlation > (best?.correlation ?? ALIKE)) best = found;
  };
  const anyhow = (factor: number): void => {
    for (const mirrored of [false, true])
      for (const turns of [0, 1, 2, 3] as const) look(factor, mirrored, turns);
  };
  const certain = (): boolean => best !== null && best.correlation > CERTAIN;
  const [whole, pixels, ...ladder] = scales(earlier, later);
  // A soft picture lies well on its own crop, too: the whole and the same pixels are both looked at, upright first.
  const likely = [...new Set([whole, pixels])];
  for (const factor of likely) look(factor, false, 0);
  if (!certain()) likely.forEach(anyhow);
  for (const factor of ladder) if (!certain()) anyhow(factor);
  if (best === null) return null;
  const settled = settle(earlier, later, refine(earlier, later, best));
  return standsOut(earlier, later, settled.pose) || alike(earlier, later, settled) ? settled : null;
}

/** Whether the whole is seen on the whole with the same lightness everywhere: so soft a picture has no detail to tell by. */
function alike(earlier: View, later: View, { pose, correlation }: Registration): boolean {
  if (correlation < SOFT || !nearlyWhole(pose)) return false;
  const a = lightnessPlane(reduceView(earlier, SEARCH));
  const b = lightnessPlane(reduceView(later, SEARCH));
  return b.data.every((light, p) => {
    const [u, v] = toEarlier(
      pose,
      ((p % b.width) + 0.5) / b.width,
      (Math.floor(p / b.width) + 0.5) / b.height,
    );
    return Math.abs(readAt(a, u * a.width - 0.5, v * a.height - 0.5) - light) < SAME_LIGHT;
  });
}

/** Width and height of the file that a view was made of. */
function fileSize({ width, height, scale }: View): [number, number] {
  return [Math.round(width / scale), Math.round(height / scale)];
}

/** Sizes to try, as places of the search copy per place of the later view: whole on whole, same pixels, then a ladder. */
function scales(earlier: View, later: View): number[] {
  const whole = SEARCH / Math.max(later.width, later.height);
  // Both views know their share of the file's pixels: a crop keeps the file's pixel size.
  const search = SEARCH / Math.max(earlier.width, earlier.height);
  const pixels = (search * earlier.scale) / later.scale;
  const ladder = Array.from({ length: 9 }, (_, k) => whole * 2 ** ((k - 4) / 4));
  return [whole, pixels, ...ladder].filter((f) => f * Math.max(later.width, later.height) <= 2 * SEARCH);
}

/** The earlier picture while its later version is searched on it. */
interface Ground {
  readonly earlier: View;
  /** Its lightness at the size of the search, and the spectrum of that. */
  readonly a: Plane;
  readonly spectrum: Float64Array;
}

function tryPose(
  { earlier, a, spectrum }: Ground,
  later: View,
  factor: number,
  mirrored: boolean,
  turns: 0 | 1 | 2 | 3,
): Registration | null {
  const long = Math.max(8, Math.round(factor * Math.max(later.width, later.height)));
  const plain = lightnessPlane(reduceView(later, long));
  const odd = turns % 2 === 1;
  const width = odd ? plain.height : plain.width;
  const height = odd ? plain.width : plain.height;
  const unit: Pose = { ...SAME_POSE, mirrored, turns };
  // The later picture brought upright: each of its points looked up where it came from.
  const b = planeOf(width, height, (p) => {
    const [u, v] = toLater(unit, ((p % width) + 0.5) / width, (Math.floor(p / width) + 0.5) / height);
    return readAt(plain, u * plain.width - 0.5, v * plain.height - 0.5);
  });
  const shift = phaseCorrelation(a, b, 2 * SEARCH, spectrum);
  const pose: Pose = {
    ...unit,
    x: shift.x / a.width,
    y: shift.y / a.height,
    width: width / a.width,
    // By the shapes of the files: those of the small copies are rounded.
    height: ((width / a.width) * ratio(earlier)) / (odd ? 1 / ratio(later) : ratio(later)),
  };
  const correlation = correlate(a, plain, pose);
  return Number.isNaN(correlation) ? null : { pose, correlation };
}

function ratio(view: View): number {
  const [width, height] = fileSize(view);
  return width / height;
}

/** Moves and stretches the pose on ever larger copies while the correlation rises. */
function refine(earlier: View, later: View, start: Registration): Registration {
  let best = start;
  for (const side of [SEARCH, 2 * SEARCH, 4 * SEARCH, 8 * SEARCH]) {
    const a = lightnessPlane(reduceView(earlier, side));
    const share = side / Math.max(earlier.width, earlier.height);
    const b = lightnessPlane(
      reduceView(later, Math.max(8, Math.round(share * later.width * best.pose.width))),
    );
    best = { ...best, correlation: correlate(a, b, best.pose) };
    for (let step = 1 / side; step > 0.2 / side; step /= 2)
      for (let moved = true; moved; ) {
        moved = false;
        for (const move of MOVES) {
          const tried = shifted(best.pose, move, step);
          const correlation = correlate(a, b, tried);
          if (correlation > best.correlation + 1e-6) {
            best = { pose: tried, correlation };
            moved = true;
          }
        }
      }
  }
  return best;
}

/** Long side of the pictures on which the last fraction of a place is found, and the places that are looked at. */
const FINE = 900;
const EVERY = 2;
/** From a place of the fine pictures down to this fraction of it. */
const LAST = 0.04;

/**
 * Settles the pose by the strokes themselves: fine detail fits only within a fraction of a place, and what does not
 * fit would be taken for work.
 */
function settle(earlier: View, later: View, start: Registration): Registration {
  const side = Math.min(FINE, Math.max(earlier.width, earlier.height));
  const share = (side / Math.max(earlier.width, earlier.height)) * start.pose.width;
  const a = strokesOf(reduceView(earlier, side));
  const across = start.pose.turns % 2 === 1 ? later.height : later.width;
  const long = (Math.max(later.width, later.height) / across) * share * earlier.width;
  const b = strokesOf(reduceView(later, Math.max(8, Math.round(long))));
  let { pose } = start;
  let best = correlate(a, b, pose, EVERY);
  if (nearlyWhole(pose)) {
    // Saved at another size, mirrored or turned, the whole lies on the whole exactly: few crops are so slight.
    const whole = { ...SAME_POSE, mirrored: pose.mirrored, turns: pose.turns };
    const strokes = correlate(a, b, whole, EVERY);
    if (!(strokes < best - SLIGHT)) return { ...start, pose: whole };
  }
  for (let step = 0.5 / side; step > LAST / side; step /= 2)
    for (let moved = true; moved; ) {
      moved = false;
      for (const move of MOVES) {
        const tried = shifted(pose, move, step);
        const correlation = correlate(a, b, tried, EVERY);
        if (correlation <= best + 1e-6) continue;
        pose = tried;
        best = correlation;
        moved = true;
      }
    }
  return { ...start, pose };
}

/** A pose this near to the whole is taken for it, unless the strokes fit better by more than this. */
const NEARLY = 0.012;
const SLIGHT = 0.05;

function nearlyWhole({ x, y, width, height }: Pose): boolean {
  return [x, y, width - 1, height - 1].every((off) => Math.abs(off) < NEARLY);
}

/** The two finest octaves of lightness. */
const strokesOf = (view: View): Plane => finest(view, 2);

type Move = readonly [x: number, y: number, size: number];

/** The pose moved by a step, or grown about its middle. */
function shifted(pose: Pose, [dx, dy, dw]: Move, step: number): Pose {
  const grown = 1 + dw * step;
  return {
    ...pose,
    x: pose.x + dx * step - (pose.width * (grown - 1)) / 2,
    y: pose.y + dy * step - (pose.height * (grown - 1)) / 2,
    width: pose.width * grown,
    height: pose.height * grown,
  };
}

const MOVES: readonly Move[] = [
  [1, 0, 0],
  [-1, 0, 0],
  [0, 1, 0],
  [0, -1, 0],
  [0, 0, 1],
  [0, 0, -1],
];
