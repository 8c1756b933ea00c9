import { reduceView } from '../../views/resample.ts';
import type { Field, View } from '../../views/view.ts';
import { chooseLight } from './choose.ts';
import { fullChange } from './curve.ts';
import { labelRegions } from './labels.ts';
import { miredOf, tintHue } from './locus.ts';
import { nearPairs } from './pairs.ts';
import { placesOf } from './places.ts';
import { type Regions, regionsOf } from './regions.ts';
import { proposeSky } from './sky.ts';
import type { LightOptions, LightResult, Trace } from './types.ts';

/** Long side of the view the light is read on; every length in this folder is in pixels of this size. */
export const LIGHT_LONG_SIDE = 900;

/**
 * Reads the light of a picture from its close view; see `docs/light.md` for the method.
 *
 * Pure and deterministic. The view may have any size; it is averaged to at most 900 px first.
 */
export function readLight(view: View, options: LightOptions = {}): LightResult {
  const work = reduceView(view, LIGHT_LONG_SIDE);
  const regions = regionsOf(work);
  const n = regions.count;
  const excluded = new Uint8Array(n);
  for (let i = 0; i < n; i++) if (!regions.usable[i]) excluded[i] = 1;
  const sky = proposeSky(work, regions);
  for (let i = 0; i < n; i++) if (sky[i]) excluded[i] = 2;
  if (options.leftOut) markLeftOut(options.leftOut, regions, excluded);
  const valid = excluded.map((e) => (e === 0 ? 1 : 0));

  const pairs = nearPairs(regions, valid, 60, 3.2);
  const found = chooseLight(regions, pairs);
  const none = {
    regionOf: regions.segmentation.labels,
    count: n,
    rgb: regions.rgb,
    px: regions.px,
    py: regions.py,
    excluded,
    probability: new Float64Array(0),
    flagged: new Uint8Array(n),
    bright: new Int32Array(0),
    dark: new Int32Array(0),
    says: new Float32Array(0),
    weight: new Float32Array(0),
  };
  const base = {
    width: work.width,
    height: work.height,
    declared: false,
    carries: found.carries,
    supportingSurfaces: found.surfaces,
    haze: { amount: 0, colour: null },
    proposedOut: paint(regions, (i) => (excluded[i] === 2 || excluded[i] === 3 ? 1 : 0)),
  };
  const fit = found.fit;
  if (!fit) {
    return {
      ...base,
      statement: 'unknown',
      evidence: { level: 'weak', reason: 'Too few surfaces are seen both lit and shaded.' },
      shift: null,
      hue: null,
      strength: null,
      mired: null,
      q: null,
      carriedPercent: null,
      fit: 0,
      neutral: paint(regions, () => 0),
      opposite: paint(regions, () => 0),
      neutralShare: 0,
      oppositeShare: 0,
      shadedShare: 0,
      places: [],
      trace: none,
    };
  }
  const labelling = labelRegions(regions, valid, pairs, fit.q);
  const P = labelling.probability;
  const flagged = new Uint8Array(n);
  for (let i = 0; i < n; i++) flagged[i] = P[4 * i + 2] > 0.5 ? 1 : P[4 * i + 3] > 0.5 ? 2 : 0;
  const shift = fullChange(fit.q);
  const trace: Trace = {
    ...none,
    probability: P,
    flagged,
    bright: pairs.bright,
    dark: pairs.dark,
    says: labelling.says,
    weight: labelling.weight,
  };
  const share = (test: (i: number) => boolean) => {
    let a = 0;
    for (let i = 0; i < n; i++) if (test(i)) a += regions.area[i];
    return a / (work.width * work.height);
  };
  const followed = share((i) => P[4 * i + 1] > 0.5);
  const shaded = followed + share((i) => flagged[i] > 0);
  return {
    ...base,
    statement: found.carries > 2 ? 'carries' : 'partly',
    evidence: { level: 'fair', reason: '' },
    shift: { x: shift.x, y: shift.y },
    hue: tintHue(fit.q),
    strength: Math.hypot(shift.x, shift.y),
    mired: miredOf(shift),
    q: fit.q,
    carriedPercent: shaded > 0 ? (100 * followed) / shaded : null,
    fit: fit.fit,
    neutral: paint(regions, (i) => (flagged[i] === 1 ? P[4 * i + 2] : 0)),
    opposite: paint(regions, (i) => (flagged[i] === 2 ? P[4 * i + 3] : 0)),
    neutralShare: share((i) => flagged[i] === 1),
    oppositeShare: share((i) => flagged[i] === 2),
    shadedShare: shaded,
    places: placesOf(regions, trace, fit.q),
    trace,
  };
}

function paint(regions: Regions, value: (region: number) => number): Field {
  const { width, height, labels } = regions.segmentation;
  const values = Float32Array.from({ length: regions.count }, (_, i) => value(i));
  const data = new Float32Array(width * height);
  for (let i = 0; i < data.length; i++) if (labels[i] >= 0) data[i] = values[labels[i]];
  return { width, height, data };
}

function markLeftOut(field: Field, regions: Regions, excluded: Uint8Array): void {
  const { width, height, labels } = regions.segmentation;
  const covered = new Float64Array(regions.count);
  for (let y = 0, i = 0; y < height; y++) {
    const fy = Math.min(field.height - 1, Math.floor(((y + 0.5) * field.height) / height));
    for (let x = 0; x < width; x++, i++) {
      if (labels[i] < 0) continue;
      const fx = Math.min(field.width - 1, Math.floor(((x + 0.5) * field.width) / width));
      covered[labels[i]] += field.data[fy * field.width + fx];
    }
  }
  for (let i = 0; i < regions.count; i++) if (covered[i] > 0.5 * regions.area[i]) excluded[i] = 4;
}
