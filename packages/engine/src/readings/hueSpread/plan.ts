import { OWN_FAMILIES } from '../../findings/thresholds/hueSpread.ts';
import type { HueArc, HueIntent } from '../../intent/intent.ts';
import { effectiveHues, hueDensity } from './density.ts';
import type { HueFamily } from './families.ts';
import { STEPS } from './histogram.ts';

/** Which hues belong to a picture: those that were planned, otherwise its own largest families. */
export interface HuePlan {
  /** True when the artist named families. */
  readonly planned: boolean;
  readonly arcs: readonly HueArc[];
  readonly accent: HueArc | null;
  /** How much of each step lies on the arcs, 0…1. */
  readonly inside: Float64Array;
  /** How much of each step lies on the accent's arc and on no other. */
  readonly accentOnly: Float64Array;
}

/** The plan of an intent, completed from the picture's families where it names none. */
export function planOf(intent: HueIntent | undefined, families: readonly HueFamily[]): HuePlan {
  const planned = intent !== undefined && intent.families.length > 0;
  const known = planned && named.get(intent);
  if (known) return known;
  const arcs = planned ? intent.families : ownArcs(families);
  const accent = intent?.accent ?? null;
  const inside = cover(arcs);
  const accentOnly = cover(accent ? [accent] : []).map((a, h) => Math.max(0, a - inside[h]));
  const plan = { planned, arcs, accent, inside, accentOnly };
  if (planned) named.set(intent, plan);
  return plan;
}

/** Plans that the artist named: they do not depend on the picture, and a search asks for them a thousand times. */
const named = new WeakMap<HueIntent, HuePlan>();

/** Spreads of plans, each once: a search asks for them a thousand times. */
const spreads = new WeakMap<HuePlan, number>();

/** Spread of a picture that uses all planned hues alike: what the plan itself allows. */
export function plannedSpread(plan: HuePlan): number {
  let spread = spreads.get(plan);
  if (spread === undefined) {
    spread = spreadOf(plan);
    spreads.set(plan, spread);
  }
  return spread;
}

function spreadOf({ inside, accentOnly }: HuePlan): number {
  const weight = inside.map((v, h) => v + accentOnly[h]);
  const sum = weight.reduce((s, v) => s + v, 0);
  return sum > 0 ? effectiveHues(hueDensity(weight.map((v) => v / sum))) : 1;
}

/** True when a hue lies on one of the arcs, with a slack in degrees on either side. */
export function onArcs(hue: number, arcs: readonly HueArc[], slack = 0): boolean {
  return arcs.some((arc) => away(hue, arc.hue) <= arc.width / 2 + slack);
}

/** The arc that is nearest to a hue. */
export function nearestArc(hue: number, arcs: readonly HueArc[]): HueArc {
  const miss = (arc: HueArc): number => Math.max(0, away(hue, arc.hue) - arc.width / 2);
  return arcs.reduce((best, arc) => (miss(arc) < miss(best) ? arc : best));
}

/** The hue on the arcs that is nearest to a hue; the hue itself when it lies on one. */
export function nearestPlanned(hue: number, arcs: readonly HueArc[]): number {
  const arc = nearestArc(hue, arcs);
  const turn = ((hue - arc.hue + 540) % 360) - 180;
  if (Math.abs(turn) <= arc.width / 2) return hue;
  return (arc.hue + (Math.sign(turn) * arc.width) / 2 + 360) % 360;
}

function away(p: number, q: number): number {
  return Math.abs(((p - q + 540) % 360) - 180);
}

/** The largest families that together make up most of the colour. */
function ownArcs(families: readonly HueFamily[]): HueArc[] {
  const arcs: HueArc[] = [];
  let held = 0;
  for (const family of families) {
    if (held >= OWN_FAMILIES) break;
    const width = (family.to - family.from + STEPS) % STEPS || STEPS;
    arcs.push({ hue: (family.from + width / 2) % STEPS, width });
    held += family.weightShare;
  }
  return arcs;
}

/** Share of each step that the arcs cover. */
function cover(arcs: readonly HueArc[]): Float64Array {
  const out = new Float64Array(STEPS);
  for (const arc of arcs) {
    if (arc.width >= STEPS) return out.fill(1);
    const from = arc.hue - arc.width / 2;
    const to = from + arc.width;
    for (let s = Math.floor(from); s < to; s++) {
      const part = Math.min(to, s + 1) - Math.max(from, s);
      const h = ((s % STEPS) + STEPS) % STEPS;
      out[h] = Math.min(1, out[h] + part);
    }
  }
  return out;
}
