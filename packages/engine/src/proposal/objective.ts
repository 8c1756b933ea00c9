import { fromSrgb } from '../colour/gamut.ts';
import { gamutMapper } from '../colour/gamutMapper.ts';
import { oklabInto } from '../colour/oklab.ts';
import type { ColourSpace } from '../colour/space.ts';
import { stepRunner } from '../edits/compile.ts';
import { hueDistance } from '../edits/lch.ts';
import type { Step } from '../edits/step.ts';
import type { HueArc, Intent } from '../intent/intent.ts';
import type { Gauge, Measured } from './gauges.ts';
import { isTheirs, type Lights } from './lights.ts';
import { measureColours } from './measured.ts';
import type { Sample } from './sample.ts';
import type { Slot } from './slots.ts';

/** Price of change: one for a mean ΔE_OK of 1. Our default. */
const PRICE = 1;
/** Price of every number that is used: each of them has to be understood. */
const EACH = 0.005;
/** A finding is aimed at a little beyond its threshold, so that rounding does not bring it back. */
const MARGIN = 0.1;
/** Price of making anything worse than it was, against reaching something. */
const WALL = 100;
/** What is no finding may come this near to being one. */
const NEAR = -0.03;
/** Price of area that comes to stand at an end. */
const ROOM = 4;
/** The strongest part of an accent's colour is its core: it may lose this share of its chroma, or turn as far. */
const CORE = 0.7;
const CORE_MOVES = 0.15;
const CORE_WALL = 30;
/** Chroma from which on a light has a colour to lose. */
const LEAST_LIGHT = 0.03;

/** What a recipe would bring, guessed on a sample. */
export interface Trial {
  /** What is made small. */
  readonly cost: number;
  /** Mean ΔE_OK. */
  readonly change: number;
  /** How far the core of the accent moves, or the lights where they move more, as a share of their chroma. */
  readonly coreMoved: number;
  readonly measured: Measured;
  /** The gauges; NaN where one has no meaning. */
  readonly offs: Float64Array;
}

export interface Objective {
  readonly gauges: readonly Gauge[];
  /** The steps whose numbers are looked for. */
  readonly slots: readonly Slot[];
  /** Which gauges are to be brought down. */
  readonly open: readonly boolean[];
  /** How far the true gauges of the picture as it is lie from those of its sample. */
  readonly bias: Float64Array;
  /** What was measured in the picture itself. */
  readonly truth: Measured;
  readonly before: Trial;
  /** Tries steps; null stands for a step that is left out. Their areas are those of `covers`. */
  try(steps: readonly (Step | null)[], bias?: Float64Array): Trial;
}

/**
 * The sum that a proposal makes small: (how far each open finding is off)² + the mean ΔE_OK of the change, with walls
 * where anything would become worse than it was.
 *
 * @param truth what was measured in the picture itself
 * @param covers for each slot the column of the sample's covers, null for everywhere
 */
export function objectiveOf(
  sample: Sample,
  truth: Measured,
  gauges: readonly Gauge[],
  open: readonly boolean[],
  slots: readonly Slot[],
  covers: readonly (number | null)[],
  context: {
    readonly intent: Intent;
    readonly space: ColourSpace;
    readonly accents: readonly HueArc[];
    readonly lights: Lights | null;
  },
): Objective {
  const { intent, space } = context;
  const { colours, whole } = sample;
  const edit = editor(sample, space);
  const { accents, lights } = context;
  const cores = [accentCore(sample, accents), ...(lights ? [lightsCore(sample, lights)] : [])];
  const truly = offsOf(gauges, truth);

  const measure = (
    steps: readonly (Step | null)[],
  ): { measured: Measured; change: number; moved: number } => {
    const { census, rgb } = edit(steps, covers);
    const measured = measureColours(census, { ...whole, rgb }, intent, space, truth);
    let change = 0;
    const moved = cores.map(() => 0);
    for (let i = 0; i < colours.count; i++) {
      const dL = census.lab[3 * i] - colours.lab[3 * i];
      const da = census.lab[3 * i + 1] - colours.lab[3 * i + 1];
      const db = census.lab[3 * i + 2] - colours.lab[3 * i + 2];
      change += colours.share[i] * Math.sqrt(dL * dL + da * da + db * db);
      for (let k = 0; k < cores.length; k++) {
        if (!(cores[k][i] > 0)) continue;
        // Colour against lightness: an accent in less light is still the same paint.
        const [L, was] = [Math.max(0.02, census.lab[3 * i]), colours.lab[3 * i]];
        const a = census.lab[3 * i + 1] / L - colours.lab[3 * i + 1] / was;
        const b = census.lab[3 * i + 2] / L - colours.lab[3 * i + 2] / was;
        moved[k] += cores[k][i] * was * Math.sqrt(a * a + b * b);
      }
    }
    return { measured, change, moved: Math.max(...moved) };
  };

  const start = measure([]);
  const guessed = offsOf(gauges, start.measured);
  const bias = truly.map((t, k) => (Number.isNaN(t - guessed[k]) ? 0 : t - guessed[k]));
  const ends = start.measured.ends;
  const crowd = ends ? ends.darks + ends.lights + ends.colours : 0;
  const trial: Objective['try'] = (steps, own = bias) => {
    const { measured, change, moved } = measure(steps);
    const offs = offsOf(gauges, measured).map((t, k) => t + own[k]);
    let cost = PRICE * change + EACH * numbersIn(steps) + CORE_WALL * Math.max(0, moved - CORE_MOVES) ** 2;
    for (let k = 0; k < gauges.length; k++) {
      const t = offs[k];
      if (Number.isNaN(t)) continue;
      if (open[k]) cost += gauges[k].weight * Math.max(0, t + MARGIN) ** 2;
      const worse = t - Math.max(Number.isNaN(truly[k]) ? 0 : truly[k], NEAR);
      if (worse > 0) cost += WALL * worse * worse;
    }
    if (measured.ends)
      cost += ROOM * Math.max(0, measured.ends.darks + measured.ends.lights + measured.ends.colours - crowd);
    return { cost, change, coreMoved: moved, measured, offs };
  };
  return { gauges, slots, open, bias, truth, before: trial([]), try: trial };
}

/** A step works on a gauge, or on the accent's core, when that would be farther off by this much without it. */
export const SERVES = 0.01;
/** What is no finding is guarded when it would come this near to being one. */
const GUARDED = -0.1;

/** True when anything open is farther off without a step, or anything else comes near to being a finding. */
export function isMissed(without: Trial, all: Trial): boolean {
  if (without.coreMoved - all.coreMoved > SERVES) return true;
  return all.offs.some((t, k) => without.offs[k] - t > SERVES && without.offs[k] > GUARDED);
}

function numbersIn(steps: readonly (Step | null)[]): number {
  return steps.reduce((n, step) => n + (step ? Object.keys(step.values).length : 0), 0);
}

export function offsOf(gauges: readonly Gauge[], measured: Measured): Float64Array {
  return Float64Array.from(gauges, (gauge) => gauge.off(measured) ?? Number.NaN);
}

/** A channel closer than this to 0 is written as the first code value of 8 bits; see `editCensus`. */
const FLOOR = 0.5 / 255 / 12.92;
const CEILING = 1 - 1 / 255;

/** Edits the sample's colours in place of fresh arrays: only what the caller reads before the next call. */
function editor({ colours, covers, whole, wholeCovers }: Sample, space: ColourSpace) {
  const hold = gamutMapper(space);
  const into = fromSrgb(space);
  const rgb = new Float64Array(3 * colours.count);
  const lab = new Float64Array(3 * colours.count);
  const atFloor = new Float64Array(colours.count);
  const atCeiling = new Float64Array(colours.count);
  const far = new Float64Array(3 * whole.count);
  const stride = colours.count > 0 ? covers.length / colours.count : 0;
  const farStride = whole.count > 0 ? wholeCovers.length / whole.count : 0;
  return (steps: readonly (Step | null)[], columns: readonly (number | null)[]) => {
    const kept = steps.flatMap((step, k) => (step ? [{ step, cover: columns[k] }] : []));
    const run = stepRunner(
      kept.map((k) => k.step),
      kept.map((k) => k.cover),
    );
    rgb.set(colours.rgb);
    lab.set(colours.lab);
    atFloor.set(colours.atFloor);
    atCeiling.set(colours.atCeiling);
    far.set(whole.rgb);
    for (let i = 0; i < colours.count; i++) {
      if (!run(rgb, 3 * i, covers, stride * i)) continue;
      hold(rgb, 3 * i);
      const [r, g, b] = [rgb[3 * i], rgb[3 * i + 1], rgb[3 * i + 2]];
      oklabInto(lab, 3 * i, r, g, b);
      const x = into[0] * r + into[1] * g + into[2] * b;
      const y = into[3] * r + into[4] * g + into[5] * b;
      const z = into[6] * r + into[7] * g + into[8] * b;
      atFloor[i] = Math.min(x, y, z) <= FLOOR ? colours.share[i] : 0;
      atCeiling[i] = Math.max(x, y, z) >= CEILING ? colours.share[i] : 0;
    }
    for (let i = 0; i < whole.count; i++) if (run(far, 3 * i, wholeCovers, farStride * i)) hold(far, 3 * i);
    return { census: { ...colours, rgb, lab, atFloor, atCeiling }, rgb: far };
  };
}

/**
 * How much the change of each colour counts as a change of the accent: the accent's strongest colours, each by its
 * share over its chroma; all 0 without an accent.
 */
function accentCore({ colours: { count, share, lab } }: Sample, accents: readonly HueArc[]): Float64Array {
  const chroma = Float64Array.from({ length: count }, (_, i) => {
    const a = lab[3 * i + 1];
    const b = lab[3 * i + 2];
    const hue = (Math.atan2(b, a) * 180) / Math.PI;
    const inside = accents.some((arc) => hueDistance(hue, arc.hue) <= arc.width / 2);
    return inside ? Math.sqrt(a * a + b * b) : 0;
  });
  const strongest = Math.max(0.06, CORE * chroma.reduce((most, c) => Math.max(most, c), 0));
  return weighed(
    chroma.map((c, i) => (c >= strongest ? share[i] : 0)),
    chroma,
  );
}

/** The same for the lights: they are told by their lightness, not by their chroma. */
function lightsCore({ colours: { count, share, lab } }: Sample, lights: Lights): Float64Array {
  const chroma = Float64Array.from({ length: count }, (_, i) => Math.hypot(lab[3 * i + 1], lab[3 * i + 2]));
  const theirs = chroma.map((c, i) => {
    if (lab[3 * i] < lights.from || c < LEAST_LIGHT) return 0;
    const hue = (Math.atan2(lab[3 * i + 2], lab[3 * i + 1]) * 180) / Math.PI;
    return isTheirs(hue, lights) ? share[i] : 0;
  });
  return weighed(theirs, chroma);
}

function weighed(core: Float64Array, chroma: Float64Array): Float64Array {
  const area = core.reduce((sum, s) => sum + s, 0);
  return core.map((s, i) => (s > 0 ? s / area / chroma[i] : 0));
}
