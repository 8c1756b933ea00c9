import type { Area } from '../areas/area.ts';
import type { ColourSpace } from '../colour/space.ts';
import type { Step } from '../edits/step.ts';
import type { HueArc } from '../intent/intent.ts';
import { deliverySpace } from '../readings/headroom/headroom.ts';
import { pastTheEdge } from './edge.ts';
import { type Gauge, gaugesFor } from './gauges.ts';
import { measuredIn } from './measured.ts';
import { isMissed, type Objective, objectiveOf, offsOf } from './objective.ts';
import { relightingHelps } from './relight.ts';
import { report } from './report.ts';
import { roundedSteps } from './rounding.ts';
import { takeSample } from './sample.ts';
import { type Cost, type Found, prune, search, settle, type Way } from './search.ts';
import { keptLights, recipeOf, type Slot, slotsFor, stepsAt, unknownCount } from './slots.ts';
import { type TrueUp, trueUpFor } from './trueUp.ts';
import type { Proposal, ProposalRequest } from './types.ts';
import { readEdited, type Seen } from './verify.ts';
import { weaken } from './weaken.ts';

/**
 * The smallest edit that meets the open findings of a picture, or comes nearest to it.
 *
 * Strengths of the steps that suit the findings are searched on a sample of the picture's colours; the recipe is then
 * made on the pixels of the middle view and read again, and whatever makes any finding worse is weakened or dropped.
 * Pure and deterministic; see `docs/proposal.md`.
 *
 * A generator, so that the work can be stopped at any moment: it yields the share that is done, 0…1, and returns the
 * proposal. `runToEnd` runs it in one go.
 */
export function* propose(request: ProposalRequest): Generator<number, Proposal> {
  const relit = yield* part(relightingHelps(request), 0, 0.1);
  const { tried, slots, found, price, trueUp, evaluations } = yield* part(
    searchRecipe(request, relit),
    0.1,
    0.45,
  );
  if (slots.length === 0) {
    const asIs: Seen = { readings: request.examination.readings, findings: request.examination.findings };
    return report(request, tried, slots, [], asIs, evaluations);
  }
  const steps = withoutIdle(tried, roundedSteps(stepsAt(slots, found.x), price));
  const space = deliverySpace(request.input.intent);
  const first = yield* part(readEdited(request, recipeOf(steps), space), 0.45, 0.7);
  const near = yield* part(pastTheEdge(request, tried, trueUp, steps, first, space), 0.7, 0.85);
  const kept = yield* part(weaken(request, near.steps, near.seen, space), 0.85, 1);
  return report(request, tried, slots, kept.steps, kept.seen, evaluations);
}

/** Leaves out steps that, rounded, no gauge would miss. */
function withoutIdle(tried: Objective, steps: readonly (Step | null)[]): (Step | null)[] {
  const all = tried.try(steps);
  return steps.map((step, k) => {
    if (!step || tried.slots[k].unknowns.length === 0) return step;
    return isMissed(tried.try(steps.map((s, j) => (j === k ? null : s))), all) ? step : null;
  });
}

/** Runs a generator of the engine to its end. */
export function runToEnd<T>(work: Generator<unknown, T>): T {
  for (;;) {
    const next = work.next();
    if (next.done) return next.value;
  }
}

/** The search on the census, before anything is verified. */
export interface Searched {
  readonly tried: Objective;
  readonly slots: readonly Slot[];
  readonly ways: readonly Way[];
  readonly cost: Cost;
  /** The same for steps. */
  readonly price: (steps: readonly (Step | null)[]) => number;
  /** How far the sample's guesses for steps lie from the picture's own colours. */
  readonly trueUp: TrueUp;
  readonly found: Found;
  readonly evaluations: number;
}

/** How often the search is held against the picture's own colours. */
const TRUED = 2;

/**
 * Looks for the strengths; also what the bench and the tests hold against a random search.
 *
 * @param relit relighting that is part of the edit in any case
 */
export function* searchRecipe(
  request: ProposalRequest,
  relit: readonly Slot[] = [],
): Generator<number, Searched> {
  const { input } = request;
  const space = deliverySpace(input.intent);
  const tried = objectiveFor(request, relit, space);
  const { slots } = tried;
  yield 0.15;
  const ways: Way[] = slots.flatMap((slot) =>
    slot.unknowns.map((u) => ({ both: u.from < 0 || u.key === 'gain' })),
  );
  const trueUp = trueUpFor(input, tried, space);
  let evaluations = 0;
  let bias = tried.bias;
  const price = (steps: readonly (Step | null)[]): number => tried.try(steps, bias).cost;
  const cost: Cost = (x) => {
    evaluations++;
    return price(stepsAt(slots, x));
  };
  const none = new Float64Array(unknownCount(slots));
  const nothing: Found = { x: none, cost: cost(none) };
  let found = prune(cost, ways, yield* part(search(cost, ways, nothing), 0.15, 0.8));
  // What the sample guessed is held against the picture's own colours, and the numbers are moved after that.
  for (let round = 0; round < TRUED && ways.length > 0; round++) {
    bias = trueUp(stepsAt(slots, found.x));
    yield 0.8 + (0.2 * (round + 0.5)) / TRUED;
    found = prune(cost, ways, settle(cost, ways, { x: found.x, cost: cost(found.x) }, 16, 0.05));
  }
  return { tried, slots, ways, cost, price, trueUp, found, evaluations };
}

function objectiveFor(request: ProposalRequest, relit: readonly Slot[], space: ColourSpace): Objective {
  const { input, examination } = request;
  const { intent } = input;
  const truth = measuredIn(examination);
  const gauges = gaugesFor(input);
  const open = openGauges(request, gauges, offsOf(gauges, truth));
  const slots = slotsFor(request, new Set(gauges.filter((_, k) => open[k]).map((g) => g.key)), relit);
  const areas: Area[] = [];
  const covers = slots.map(({ area }) => {
    if (!area) return null;
    const known = areas.findIndex((a) => JSON.stringify(a) === JSON.stringify(area));
    return known >= 0 ? known : areas.push(area) - 1;
  });
  const sample = takeSample(input.census, input.views, areas, intent, space);
  return objectiveOf(sample, truth, gauges, open, slots, covers, {
    intent,
    space,
    accents: accentsOf(request),
    lights: open.some(Boolean) ? keptLights(request) : null,
  });
}

/** Which gauges are to be brought down: those of open findings that an edit may move. */
function openGauges(
  { input: { intent }, examination }: ProposalRequest,
  gauges: readonly Gauge[],
  offs: Float64Array,
): boolean[] {
  const found = new Set(examination.findings.map((f) => f.key));
  const settled = new Set(examination.settled.map((f) => f.key));
  return gauges.map(({ key, reading }, k) => {
    if (!(offs[k] > 0) || settled.has(key)) return false;
    // Which place keeps an accent is the artist's choice: without a focus everything would have to lose its colour.
    if (key === 'hueSpread.accent') return found.has(key) && intent.focus !== undefined;
    if (key === 'hueSpread.unusual' || reading === 'value') return found.has(key);
    // Strays stand for the spread too, and the farthest axis for the whole mood.
    return examination.findings.some((f) => f.reading === reading);
  });
}

/** Hues whose change is dear: the planned accent, or the small strong families of the picture. */
function accentsOf({ input: { intent }, examination }: ProposalRequest): HueArc[] {
  if (intent.hue?.accent) return [intent.hue.accent];
  if (intent.hue && intent.hue.families.length > 0) return [];
  const { hues } = measuredIn(examination);
  return (hues?.families ?? []).filter((f) => f.accent).map((f) => ({ hue: f.hue, width: 30 }));
}

/** Runs a part of the work and places its progress within the whole. */
function* part<T>(work: Generator<number, T>, from: number, to: number): Generator<number, T> {
  for (;;) {
    const next = work.next();
    if (next.done) return next.value;
    yield from + (to - from) * next.value;
  }
}
