import type { LightIntent } from '../../intent/intent.ts';
import { reduceView } from '../../views/resample.ts';
import type { Field, View } from '../../views/view.ts';
import { type Air, veilOver, withoutAir } from './air.ts';
import { chooseLight, nearChanges } from './choose.ts';
import { type Changes, fullChange, type Ratio, shiftOf } from './curve.ts';
import { contrastInPicture, declaredRatio } from './declared.ts';
import { exclusions, GLOW, JUDGED, SKY } from './exclusions.ts';
import { airOf, hazeOf } from './haze.ts';
import { type Labelling, labelRegions } from './labels.ts';
import { miredOf, tintHue } from './locus.ts';
import { nearPairs, type Pairs } from './pairs.ts';
import { placesOf } from './places.ts';
import { type Regions, regionsOf } from './regions.ts';
import type { Haze, LightOptions, LightPlace, LightResult, Shift, Trace } from './types.ts';
import { verdictOf } from './verdict.ts';
import type { Watch } from './watch.ts';

/** Long side of the view the light is read on; every length in this folder is in pixels of this size. */
export const LIGHT_LONG_SIDE = 900;
/** Regions within this many pixels are held against each other … */
const RADIUS = 60;
/** … if they differ by less than this in ℓ. */
const MOST_DROP = 3.2;
/**
 * Opposite places against shade that follows the light: above this share the read light may itself be the wrong way
 * round, and nobody is told to be lit against it until a light is declared. Calibrated on the tuned scenes.
 */
const DOUBTED = 0.35;
/** Flagged from this probability on; behind air, where two must agree, from less. Our defaults, see docs/light.md. */
const SURE = { seen: 0.7, behindAir: 0.5 };
/** Through more air than this nothing is told to be lit against the scene: what was taken off is not known so well. */
const CLEAR = 0.1;

/**
 * Reads the light of a picture from its close view; see `docs/light.md` for the method.
 *
 * Pure and deterministic. The view may have any size; it is averaged to at most 900 px first.
 */
export function readLight(view: View, options: LightOptions = {}): LightResult {
  const work = reduceView(view, LIGHT_LONG_SIDE);
  const seen = regionsOf(work);
  const excluded = exclusions(work, seen, options.leftOut ?? null);
  const horizon = airOf(seen, excluded);
  const haze = hazeOf(seen, excluded, horizon);
  const valid = excluded.map((e) => (e === JUDGED ? 1 : 0));
  const declared = declaredRatio(options.light);
  const air: Air | null = haze.colour && { colour: haze.colour, veil: veilOver(seen, excluded, haze.colour) };
  // The light behind the air is the truer one; what speaks only through the air is taken as it is seen.
  const behind = air && choiceOn(withoutAir(seen, air), valid, air.colour, options.watch);
  const cleared = behind !== null && (declared !== null || behind.choice.candidate !== null);
  const { regions, pairs, changes, choice } = cleared
    ? behind
    : choiceOn(seen, valid, haze.colour, options.watch);
  const { statement, evidence } = verdictOf(choice, declared !== null);
  const silent = statement === 'unknown' || statement === 'none';
  const q = silent ? null : declared ? ratioFor(options.light!, declared, changes) : choice.fit!.q;

  const labelling = q ? labelRegions(regions, valid, pairs, q, horizon, cleared, options.watch) : null;
  const trace = traceOf(seen, excluded, pairs, labelling, cleared ? SURE.behindAir : SURE.seen);
  if (cleared && air)
    for (let i = 0; i < seen.count; i++)
      if (trace.flagged[i] === 2 && air.veil[i] > CLEAR) trace.flagged[i] = 0;
  const found = q ? placesOf(regions, trace, q, cleared ? air : null) : [];
  keepPlaces(trace.flagged, found);
  const first = areasOf(regions, trace);
  const doubted = declared === null && first.opposite > DOUBTED * first.followed;
  const places = doubted ? found.filter(({ kind }) => kind !== 'opposite') : found;
  if (doubted) keepPlaces(trace.flagged, places);
  const areas = areasOf(regions, trace);
  const shift = q ? (declared ? fullChange(q) : shiftOf(q, changes)) : null;
  const flagged = (kind: number) =>
    paint(regions, (i) => (trace.flagged[i] === kind ? trace.probability[4 * i + kind + 1] : 0));
  return {
    width: work.width,
    height: work.height,
    statement,
    evidence,
    declared: declared !== null,
    shift: shift && { x: shift.x, y: shift.y },
    hue: q && tintHue(q),
    strength: shift && Math.hypot(shift.x, shift.y),
    mired: shift && miredOf(shift),
    q,
    carries: choice.carries,
    turnedBy: declared && shift && choice.fit ? angleBetween(shift, shiftOf(choice.fit.q, changes)) : null,
    carriedPercent: q && areas.judged > 0 ? (100 * areas.followed) / areas.judged : null,
    supportingSurfaces: choice.surfaces,
    fit: choice.fit?.fit ?? 0,
    haze,
    neutral: flagged(1),
    opposite: flagged(2),
    neutralShare: areas.neutral,
    oppositeShare: areas.opposite,
    shadedShare: areas.judged,
    places,
    proposedOut: paint(regions, (i) => (excluded[i] === SKY || excluded[i] === GLOW ? 1 : 0)),
    trace,
  };
}

function choiceOn(regions: Regions, valid: Uint8Array, air: Haze['colour'], watch?: Watch) {
  const pairs = nearPairs(regions, valid, RADIUS, MOST_DROP);
  const changes = nearChanges(pairs);
  return { regions, pairs, changes, choice: chooseLight(regions, valid, pairs, changes, air, watch) };
}

/** In degrees; null when one of them has no direction. */
function angleBetween(a: Shift, b: Shift): number | null {
  const lengths = Math.hypot(a.x, a.y) * Math.hypot(b.x, b.y);
  if (lengths < 1e-6) return null;
  return (Math.acos(Math.min(1, Math.max(-1, (a.x * b.x + a.y * b.y) / lengths))) * 180) / Math.PI;
}

/** A surface seen lit and shaded tells the contrast too; a situation only the colours. */
function ratioFor(light: LightIntent, q: Ratio, changes: Changes): Ratio {
  return light.kind === 'surface' ? q : contrastInPicture(q, changes);
}

function traceOf(
  regions: Regions,
  excluded: Uint8Array,
  pairs: Pairs,
  labelling: Labelling | null,
  sure: number,
): Trace {
  const n = regions.count;
  const flagged = new Uint8Array(n);
  if (labelling) {
    const p = labelling.probability;
    for (let i = 0; i < n; i++) flagged[i] = p[4 * i + 2] > sure ? 1 : p[4 * i + 3] > sure ? 2 : 0;
  }
  return {
    regionOf: regions.segmentation.labels,
    count: n,
    rgb: regions.rgb,
    px: regions.px,
    py: regions.py,
    excluded,
    pieceOf: labelling?.pieceOf ?? new Int32Array(0),
    litFrom: labelling?.litFrom ?? new Int32Array(0),
    probability: labelling?.probability ?? new Float64Array(0),
    flagged,
    bright: labelling ? pairs.bright : new Int32Array(0),
    dark: labelling ? pairs.dark : new Int32Array(0),
    says: labelling?.says ?? new Float32Array(0),
    weight: labelling?.weight ?? new Float32Array(0),
  };
}

/** What belongs to no place (specks, and where no lit colour is known) is not flagged. */
function keepPlaces(flagged: Uint8Array, places: readonly LightPlace[]): void {
  const kept = new Set(places.flatMap((place) => place.regions));
  for (let i = 0; i < flagged.length; i++) if (!kept.has(i)) flagged[i] = 0;
}

/** Shares of the whole area: flagged, in shade that follows the light, and all shade that was judged. */
function areasOf(regions: Regions, trace: Trace) {
  const { width, height } = regions.segmentation;
  const sums = [0, 0, 0];
  for (let i = 0; i < regions.count; i++) {
    const f = trace.flagged[i];
    if (f > 0) sums[f] += regions.area[i];
    else if (trace.probability[4 * i + 1] > 0.5) sums[0] += regions.area[i];
  }
  const [followed, neutral, opposite] = sums.map((v) => v / (width * height));
  return { followed, neutral, opposite, judged: followed + neutral + opposite };
}

function paint(regions: Regions, value: (region: number) => number): Field {
  const { width, height, labels } = regions.segmentation;
  const values = Float32Array.from({ length: regions.count }, (_, i) => value(i));
  const data = new Float32Array(width * height);
  for (let i = 0; i < data.length; i++) if (labels[i] >= 0) data[i] = values[labels[i]];
  return { width, height, data };
}
