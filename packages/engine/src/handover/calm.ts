import type { AreaPart } from '../areas/area.ts';
import { linearToOklab, oklabToOklch } from '../colour/oklab.ts';
import type { ColourSpace } from '../colour/space.ts';
import { readyRecipe } from '../edits/compile.ts';
import { editView } from '../edits/editView.ts';
import type { Step } from '../edits/step.ts';
import { reduceView } from '../views/resample.ts';
import type { View } from '../views/view.ts';
import type { GamutLook } from './gamutLook.ts';

/** Share of the picture that may still be lost. */
export const LEFT_OVER = 0.01;
/** Long side of the copy on which steps are tried. */
const TRIED_ON = 240;
const ARCS = 36;
/** A hue counts among those that are lost from this share of what is lost. */
const COUNTS_FROM = 0.04;

/** The edit that calms what a target would lose. */
export interface Calming {
  /** To be put at the end of the recipe; empty when nothing helps or nothing is lost. */
  readonly steps: readonly Step[];
  /** Share that is lost without and with them, on the copy they were tried on. */
  readonly before: number;
  readonly after: number;
  /** True when less than one per cent is left. */
  readonly enough: boolean;
}

/** One way of calming: its steps at a strength of 1 … `most`. */
interface Way {
  readonly most: number;
  readonly steps: (amount: number) => Step[];
}

/**
 * Looks for the smallest edit after which less than one per cent of the picture is lost: the strongest colours brought
 * in as a whole, chroma taken only from the hues that are lost, darks lifted, and both of the last together.
 *
 * @param view the edited picture, unclipped; `space` is what its edit is held in
 * @param look what the target makes of a view; asked some forty times, for small views
 */
export async function calmLoss(
  view: View,
  space: ColourSpace,
  look: (view: View) => GamutLook | Promise<GamutLook>,
): Promise<Calming> {
  const small = reduceView(view, TRIED_ON);
  const first = await look(small);
  if (first.share < LEFT_OVER) return { steps: [], before: first.share, after: first.share, enough: true };
  const lossOf = async (steps: readonly Step[]): Promise<number> =>
    (await look(edited(small, steps, space))).share;
  const parts = lostHues(small, first);
  const best: { steps: Step[]; loss: number; change: number } = { steps: [], loss: first.share, change: 0 };
  const offer = (steps: Step[], loss: number): void => {
    const change = changeOf(small, edited(small, steps, space));
    const reaches = loss < LEFT_OVER;
    const has = best.loss < LEFT_OVER;
    const better = reaches ? !has || change < best.change : !has && loss < best.loss - 0.002;
    if (better) Object.assign(best, { steps, loss, change });
  };
  const ways: Way[] = [
    { most: 30, steps: (chroma) => [openEnds({ chroma })] },
    { most: 30, steps: (darks) => [openEnds({ darks })] },
  ];
  if (parts.length > 0) ways.push({ most: 90, steps: (amount) => [lessChroma(amount, parts)] });
  for (const way of ways) {
    const found = await least(way, lossOf);
    offer(found.steps, found.loss);
  }
  if (best.loss >= LEFT_OVER && parts.length > 0)
    for (const darks of [4, 8, 14]) {
      const both = await least(
        { most: 90, steps: (amount) => [openEnds({ darks }), lessChroma(amount, parts)] },
        lossOf,
      );
      offer(both.steps, both.loss);
      if (best.loss < LEFT_OVER) break;
    }
  return { steps: best.steps, before: first.share, after: best.loss, enough: best.loss < LEFT_OVER };
}

/** The weakest setting that is enough, by halving; the strongest when none is. */
async function least(
  way: Way,
  lossOf: (steps: readonly Step[]) => Promise<number>,
): Promise<{ steps: Step[]; loss: number }> {
  let high = way.most;
  let loss = await lossOf(way.steps(high));
  if (loss >= LEFT_OVER) return { steps: way.steps(high), loss };
  let low = 0;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    const tried = await lossOf(way.steps(middle));
    if (tried < LEFT_OVER) {
      high = middle;
      loss = tried;
    } else low = middle;
  }
  return { steps: way.steps(high), loss };
}

const REASON = 'Calms what the target would lose.';

function openEnds(values: Record<string, number>): Step {
  return { kind: 'openEnds', on: true, strength: 1, values, reason: REASON };
}

function lessChroma(percent: number, parts: readonly AreaPart[]): Step {
  return {
    kind: 'chroma',
    on: true,
    strength: 1,
    values: { gain: Math.round(100 - percent) / 100 },
    area: { parts, soften: 0 },
    reason: REASON,
  };
}

function edited(view: View, steps: readonly Step[], space: ColourSpace): View {
  return editView(readyRecipe({ schema: 'halflight/recipe@1', steps }, view), view, space);
}

/** Arcs of the hues that are lost, neighbours as one. */
function lostHues(view: View, { map }: GamutLook): AreaPart[] {
  const weight = new Float64Array(ARCS);
  let all = 0;
  for (let p = 0; p < map.data.length; p++) {
    if (map.data[p] === 0) continue;
    const [, chroma, hue] = oklabToOklch(
      linearToOklab([view.rgb[3 * p], view.rgb[3 * p + 1], view.rgb[3 * p + 2]]),
    );
    if (chroma < 0.03) continue;
    weight[Math.floor(((hue + 360) % 360) / (360 / ARCS)) % ARCS]++;
    all++;
  }
  if (all === 0) return [];
  const on = Array.from(weight, (w) => w >= COUNTS_FROM * all);
  if (on.every(Boolean)) return [{ joining: 'add', kind: 'hues', hue: 0, width: 360 }];
  const parts: AreaPart[] = [];
  for (let start = 0; start < ARCS; start++) {
    if (!on[start] || on[(start + ARCS - 1) % ARCS]) continue;
    let length = 1;
    while (on[(start + length) % ARCS]) length++;
    const step = 360 / ARCS;
    const hue = (start + length / 2) * step;
    parts.push({ joining: 'add', kind: 'hues', hue: hue % 360, width: Math.min(360, length * step + 16) });
  }
  return parts;
}

/** Mean distance in OKLab. */
function changeOf(a: View, b: View): number {
  let sum = 0;
  for (let i = 0; i < a.rgb.length; i += 3) {
    const p = linearToOklab([a.rgb[i], a.rgb[i + 1], a.rgb[i + 2]]);
    const q = linearToOklab([b.rgb[i], b.rgb[i + 1], b.rgb[i + 2]]);
    sum += Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]);
  }
  return (3 * sum) / a.rgb.length;
}
