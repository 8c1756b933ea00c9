import { cssHex } from '../../colour/css.ts';
import { arcPath, ringPath } from '../../drawings/arcs.ts';
import type { Drawing, Shape } from '../../drawings/drawing.ts';
import { listOf, percent, sentence } from '../../findings/wording.ts';
import { censusFor } from '../censusFor.ts';
import type { Reading, ReadingInput } from '../reading.ts';
import { hueDensity } from './density.ts';
import { countedFamilies } from './findings.ts';
import { type HueHistogram, hueHistogram, STEPS } from './histogram.ts';
import type { HueSpreadValue } from './types.ts';

const SIZE = 200;
const MIDDLE = SIZE / 2;
const RING = 58;
const LONGEST = 38;
const PLAN = 50;
/** Degrees of one tooth of the ring. */
const TOOTH = 3;
/** Neighbours overlap by this many degrees, so that no seam shows between them. */
const OVERLAP = 0.4;

/**
 * A thin ring: outside it the weight of each hue in the picture's own colours (red to the right, then against the
 * clock yellow, green, blue), inside it the planned families as arcs.
 */
export function drawHues({ value }: Reading<HueSpreadValue>, input: ReadingInput): Drawing {
  const histogram = hueHistogram(censusFor(input));
  const shapes: Shape[] = [
    { kind: 'circle', cx: MIDDLE, cy: MIDDLE, r: RING, fill: 'none', stroke: 'quiet' },
    ...teeth(histogram),
  ];
  const { hue } = input.intent;
  for (const arc of hue?.families ?? [])
    shapes.push({
      kind: 'path',
      d: arcPath(MIDDLE, MIDDLE, PLAN, arc.hue - arc.width / 2, arc.hue + arc.width / 2),
      fill: 'none',
      stroke: 'ink',
      strokeWidth: 3,
    });
  if (hue?.accent)
    shapes.push({
      kind: 'path',
      d: arcPath(
        MIDDLE,
        MIDDLE,
        PLAN - 6,
        hue.accent.hue - hue.accent.width / 2,
        hue.accent.hue + hue.accent.width / 2,
      ),
      fill: 'none',
      stroke: 'quiet',
      strokeWidth: 1.5,
    });
  return { width: SIZE, height: SIZE, shapes, sentence: describe(value) };
}

/** Pieces of the density outside the ring; the highest reaches the border. */
function teeth(histogram: HueHistogram): Shape[] {
  if (!(histogram.colourWeight > 0)) return [];
  const density = hueDensity(histogram.weight);
  const highest = density.reduce((a, b) => Math.max(a, b), 0);
  const shapes: Shape[] = [];
  const rim: Shape[] = [];
  for (let from = 0; from < STEPS; from += TOOTH) {
    let sum = 0;
    for (let h = from; h < from + TOOTH; h++) sum += density[h];
    const part = sum / TOOTH / highest;
    if (part < 0.004) continue;
    // Seen also where the colour is as dark or as light as the ground, and by those who can't tell it apart.
    rim.push({
      kind: 'path',
      d: arcPath(MIDDLE, MIDDLE, RING + 1 + LONGEST * part, from, from + TOOTH),
      fill: 'none',
      stroke: 'quiet',
      strokeWidth: 1,
    });
    shapes.push({
      kind: 'path',
      d: ringPath(MIDDLE, MIDDLE, RING + 1, RING + 1 + LONGEST * part, from, from + TOOTH + OVERLAP),
      fill: { css: colourAt(histogram, from + (TOOTH >> 1)) },
    });
  }
  return [...shapes, ...rim];
}

/** The picture's mean colour around a step of the hue circle; the nearer hues count more. */
function colourAt({ area, light }: HueHistogram, hue: number): string {
  let [r, g, b, sum] = [0, 0, 0, 0];
  for (let reach = 3; sum <= 1e-9 && reach <= 48; reach *= 2)
    for (let k = -reach; k <= reach; k++) {
      const h = (hue + k + STEPS) % STEPS;
      sum += area[h];
      r += light[3 * h];
      g += light[3 * h + 1];
      b += light[3 * h + 2];
    }
  return cssHex(sum > 0 ? [r / sum, g / sum, b / sum] : [0.2, 0.2, 0.2]);
}

function describe(value: HueSpreadValue): string {
  if (value.effectiveHues === null) return 'A ring of hues with nothing on it: the picture has no colour.';
  const families = countedFamilies(value);
  const parts = families.map((f) => `${f.name} ${percent(f.weightShare)}`);
  const stray =
    value.planned && value.strayShare !== null
      ? ` ${sentence(percent(value.strayShare))} lies outside the plan.`
      : '';
  return `The weight of each hue around a ring: ${listOf(parts)}.${stray}`;
}
