import type { Area } from '../areas/area.ts';
import type { HueArc } from '../intent/intent.ts';
import { deliverySpace } from '../readings/headroom/headroom.ts';
import { gaugesFor } from './gauges.ts';
import { measuredIn } from './measured.ts';
import { type Objective, objectiveOf, offsOf } from './objective.ts';
import { report } from './report.ts';
import { takeSample } from './sample.ts';
import { type Cost, type Found, prune, search, settle, type Way } from './search.ts';
import { recipeOf, type Slot, slotsFor, stepsAt, unknownCount } from './slots.ts';
import { trueUp } from './trueUp.ts';
import type { Proposal, ProposalRequest } from './types.ts';
import { readEdited, type Seen } from './verify.ts';
import { weaken } from './weaken.ts';

/**
 * The smallest edit that meets the open findings of a picture, or comes nearest to it.
 *
 * Strengths of the steps that suit the findings are searched on a sample of the picture's colours; the recipe is then
 * made on the pixels of the close view and read again, and whatever makes any finding worse is weakened or dropped.
 * Pure and deterministic; see `docs/proposal.md`.
 *
 * A generator, so that the work can be stopped at any moment: it yields the share that is done, 0…1, and returns the
 * proposal. `runToEnd` runs it in one go.
 */
export function* propose(request: ProposalRequest): Generator<number, Proposal> {
  const { tried, slots, found, evaluations } = yield* part(searchRecipe(request), 0, 0.45);
  if (slots.length === 0) {
    const asIs: Seen = { readings: request.examination.readings, findings: request.examination.findings };
    return report(request, tried, slots, [], asIs, evaluations);
  }
  const steps = stepsAt(slots, found.x, true);
  const space = deliverySpace(request.input.intent);
  const first = yield* part(readEdited(request, recipeOf(steps), space), 0.45, 0.8);
  const kept = yield* part(weaken(request, steps, first, space), 0.8, 1);
  return report(request, tried, slots, kept.steps, kept.seen, evaluations);
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
  readonly found: Found;
  readonly evaluations: number;
}

/** Looks for the strengths; also what the bench and the tests hold against a random search. */
export function* searchRecipe(request: ProposalRequest): Generator<number, Searched> {
  const { input, examination } = request;
  const { intent } = input;
  const space = deliverySpace(intent);
  const truth = measuredIn(examination);
  const gauges = gaugesFor(input);
  const offs = offsOf(gauges, truth);
  const found = new Set(examination.findings.map((f) => f.key));
  const settled = new Set(examination.settled.map((f) => f.key));
  const open = gauges.map(({ key, reading }, k) => {
    if (!(offs[k] > 0) || settled.has(key)) return false;
    // Strays stand for the spread too, and the farthest axis for the whole mood.
    const spoken = key.endsWith('.unusual') || key.startsWith('value.') ? [key] : null;
    return spoken ? found.has(key) : examination.findings.some((f) => f.reading === reading);
  });
  const slots = slotsFor(request, new Set(gauges.filter((_, k) => open[k]).map((g) => g.key)));
  const areas: Area[] = [];
  const covers = slots.map(({ area }) => {
    if (!area) return null;
    const known = areas.findIndex((a) => JSON.stringify(a) === JSON.stringify(area));
    return known >= 0 ? known : areas.push(area) - 1;
  });
  yield 0.02;
  const sample = takeSample(input.census, input.views, areas, intent, space);
  yield 0.15;
  const tried = objectiveOf(sample, truth, gauges, open, covers, {
    intent,
    space,
    accents: accentsOf(request),
  });
  const ways: Way[] = slots.flatMap((slot) =>
    slot.unknowns.map((u) => ({ both: u.from < 0 || u.key === 'gain' })),
  );
  let evaluations = 0;
  let bias = tried.bias;
  const cost: Cost = (x) => {
    evaluations++;
    return tried.try(stepsAt(slots, x), bias).cost;
  };
  const nothing: Found = {
    x: new Float64Array(unknownCount(slots)),
    cost: cost(new Float64Array(unknownCount(slots))),
  };
  const best = prune(cost, ways, yield* part(search(cost, ways, nothing), 0.15, 0.85), nothing);
  // What the sample guessed is held against the picture's own colours once, and the numbers are moved after that.
  bias = trueUp(input, tried, stepsAt(slots, best.x), space);
  yield 0.95;
  const again = settle(cost, ways, { x: best.x, cost: cost(best.x) }, 16, 0.04);
  return { tried, slots, ways, cost, found: again, evaluations };
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
