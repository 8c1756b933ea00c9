import type { Area, AreaPart } from '../areas/area.ts';
import { stepKind } from '../edits/list.ts';
import { statisticsOf } from '../edits/statistics.ts';
import type { Recipe, Step, StepData, StepId } from '../edits/step.ts';
import type { HueArc, HueIntent, MoodExample } from '../intent/intent.ts';
import type { HueFamily } from '../readings/hueSpread/families.ts';
import { isTheirs, type Lights, lightsOf } from './lights.ts';
import type { ProposalRequest } from './types.ts';

/** A step that a proposal may hold; its numbers are the unknowns. */
export interface Slot {
  readonly kind: StepId;
  readonly data?: StepData;
  readonly area?: Area;
  /** Numbers that are looked for, each in its range. */
  readonly unknowns: readonly Unknown[];
  /** Numbers that are known beforehand. */
  readonly fixed?: Readonly<Record<string, number>>;
  /** Key of the finding that the step is for, where no gauge tells. */
  readonly serves?: string;
  /** What the area is, for the reason: "in the focus". */
  readonly where?: string;
  /** What keeps its colour though it lies outside: "the orange of the lights". */
  readonly keeps?: string;
  /** Name of what a match is made to. */
  readonly name?: string;
}

export interface Unknown {
  readonly key: string;
  readonly from: number;
  readonly to: number;
}

/**
 * The steps that suit what is open, in the order in which they work: first the light, then hues, then the whole, then
 * values, and at last the room at the ends.
 *
 * The ranges are narrower than those of the steps: what lies beyond is no small change any more. Our defaults.
 */
export function slotsFor(
  request: ProposalRequest,
  open: ReadonlySet<string>,
  relit: readonly Slot[],
): Slot[] {
  const { intent } = request.input;
  const any = (...keys: string[]): boolean => keys.some((key) => open.has(key));
  const slots: Slot[] = [];
  if (any('hueSpread.many', 'hueSpread.strays', 'hueSpread.unusual', 'mood.hueSpread')) {
    const lights = keptLights(request);
    const keeps = lights ? { keeps: lights.words } : {};
    for (const data of huePlans(intent.hue, familiesIn(request), lights))
      slots.push(
        { kind: 'gatherHues', data, ...keeps, unknowns: [to('amount', 100)] },
        { kind: 'calmStrays', data, ...keeps, unknowns: [to('amount', 90)] },
      );
  }
  const { focus } = intent;
  if (any('hueSpread.accent') && intent.hue?.accent && focus)
    slots.push({
      kind: 'calmStrays',
      data: { families: intent.hue.families },
      area: {
        parts: [
          { joining: 'add', kind: 'hues', ...arc(intent.hue.accent) },
          ...focus.outlines.map((outline) => outlinePart('subtract', outline)),
        ],
        soften: 0.01,
      },
      unknowns: [to('amount', 100)],
      where: 'outside the focus',
    });
  const mood = [...open].some((key) => key.startsWith('mood.'));
  const examples = intent.mood?.examples ?? [];
  if (mood && examples.length > 0 && request.input.census.count > 0)
    slots.push({
      kind: 'match',
      data: { from: statisticsOf(request.input.census), to: pooled(examples) },
      unknowns: [to('amount', 70)],
      name: examples.map((e) => `“${e.name}”`).join(' and '),
    });
  if (any('mood.warmCool')) slots.push({ kind: 'warmth', unknowns: [{ key: 'mired', from: -80, to: 120 }] });
  if (any('value.focus') && focus) {
    const parts = (joining: 'add' | 'subtract'): AreaPart[] =>
      focus.outlines.map((outline) => outlinePart(joining, outline));
    slots.push(
      {
        kind: 'exposure',
        area: { parts: parts('add'), soften: 0.04 },
        unknowns: [{ key: 'stops', from: -0.8, to: 0.8 }],
        where: 'in the focus',
      },
      {
        kind: 'exposure',
        area: { parts: parts('subtract'), soften: 0.04 },
        unknowns: [{ key: 'stops', from: -0.8, to: 0.8 }],
        where: 'around the focus',
      },
    );
  }
  const values = any(
    'mood.key',
    'mood.heavyLight',
    'mood.contrast',
    'value.close',
    'value.unusual.key',
    'value.unusual.range',
  );
  if (values)
    slots.push(
      { kind: 'exposure', unknowns: [{ key: 'stops', from: -1.5, to: 1.5 }] },
      { kind: 'contrast', unknowns: [{ key: 'amount', from: -0.5, to: 0.6 }] },
      {
        kind: 'valueGroups',
        unknowns: ['darks', 'middles', 'lights'].map((key) => ({ key, from: -10, to: 10 })),
      },
    );
  if (mood || any('headroom.colours'))
    slots.push({ kind: 'chroma', unknowns: [{ key: 'gain', from: 0.5, to: 1.5 }] });
  const ends = (['darks', 'lights', 'colours'] as const).filter((key) => any(`headroom.${key}`));
  // Steps of value press on the ends, so that room may have to be made there too.
  if (ends.length > 0 || values)
    slots.push({ kind: 'openEnds', unknowns: [to('darks', 20), to('lights', 15), to('chroma', 25)] });
  return [...relit, ...slots.map((slot) => sparing(slot, request))];
}

const to = (key: string, end: number): Unknown => ({ key, from: 0, to: end });

/** A step that leaves alone what no step may touch. */
export function sparing(slot: Slot, request: ProposalRequest): Slot {
  return { ...slot, ...keeping(slot.area, keptOutlines(request)) };
}

/** What no step may touch: protected outlines, and places that are meant so. */
function keptOutlines({ kept = [], answers = [] }: ProposalRequest): (readonly number[])[] {
  return [...kept, ...answers.flatMap((a) => (a.kind === 'meantSo' && a.outline ? [a.outline] : []))];
}

function keeping(area: Area | undefined, kept: readonly (readonly number[])[]): { area?: Area } {
  if (kept.length === 0) return area ? { area } : {};
  const parts = kept.map((outline) => outlinePart('subtract', outline));
  return { area: { soften: area?.soften ?? 0, parts: [...(area?.parts ?? []), ...parts] } };
}

function outlinePart(joining: 'add' | 'subtract', outline: readonly number[]): AreaPart {
  return { joining, kind: 'outline', outlines: [outline] };
}

function familiesIn({ examination }: ProposalRequest): readonly HueFamily[] {
  const reading = examination.readings.find((r) => r.id === 'hueSpread')?.reading;
  return reading ? (reading.value as { families: readonly HueFamily[] }).families : [];
}

/** The lights that an edit leaves their colour: a plan of the artist's says by itself what stays. */
export function keptLights({ input: { intent, census } }: ProposalRequest): Lights | null {
  return intent.hue && intent.hue.families.length > 0 ? null : lightsOf(census);
}

/** Widest arc that a family of the picture's own is held to, and a narrow one for hues that scatter. */
const OWN_WIDTH = 50;
const NARROW = 26;

/** Which families hues could be gathered to: the plan's, or the leading ones of the picture, more or less strictly. */
function huePlans(hue: HueIntent | undefined, own: readonly HueFamily[], lights: Lights | null): StepData[] {
  const planned = hue?.families ?? [];
  const keeping = (accents: readonly HueArc[]): StepData =>
    accents.length > 0 ? { keep: accents.map(arc) } : {};
  const accent = hue?.accent ? [hue.accent] : [];
  if (planned.length > 0) return [{ families: planned.map(inner), ...keeping(accent) }];
  const coloured = own.filter((f) => !f.accent);
  // The lights stay in any case: which families lead is asked of the others.
  const others = coloured.filter((f) => !lights || !isTheirs(f.hue, lights));
  const leading = others.length > 0 ? others : coloured;
  if (leading.length === 0) return [];
  const small = own.filter((f) => f.accent).map((f) => ({ hue: f.hue, width: 30 }));
  const accents = [...accent, ...small, ...(lights ? [lights.arc] : [])];
  const plan = (count: number, width: number): StepData => ({
    families: leading
      .slice(0, count)
      .map((f) => arc({ hue: f.hue, width: Math.min(width, (f.to - f.from + 360) % 360 || 360) })),
    ...keeping(accents),
  });
  return leading.length > 1 ? [plan(2, OWN_WIDTH), plan(2, NARROW), plan(1, OWN_WIDTH)] : [plan(1, NARROW)];
}

/** What is drawn to the edge of an arc stops just short of it: the edge of an arc a little inside is aimed at. */
const inner = ({ hue, width }: HueArc): HueArc => arc({ hue, width: width - Math.min(20, width / 2) });

const arc = ({ hue, width }: HueArc): HueArc => ({ hue: round(hue, 1), width: round(width, 1) });

/** Mean and covariance of all examples together, each counting alike. */
function pooled(examples: readonly MoodExample[]): NonNullable<StepData['to']> {
  const n = examples.length;
  const mean = [0, 1, 2].map((c) => examples.reduce((sum, e) => sum + e.mean[c] / n, 0));
  const covariance = new Array<number>(9).fill(0);
  for (const {
    mean: own,
    covariance: [ll, la, lb, aa, ab, bb],
  } of examples) {
    const full = [ll, la, lb, la, aa, ab, lb, ab, bb];
    for (let r = 0; r < 3; r++)
      for (let c = 0; c < 3; c++)
        covariance[3 * r + c] += (full[3 * r + c] + (own[r] - mean[r]) * (own[c] - mean[c])) / n;
  }
  return { mean, covariance };
}

function round(v: number, digits: number): number {
  return Number(v.toFixed(digits));
}

/** How many unknowns slots have together. */
export function unknownCount(slots: readonly Slot[]): number {
  return slots.reduce((n, slot) => n + slot.unknowns.length, 0);
}

/**
 * The steps for a point of the search: each number of `x` goes from −1 (the range's lower end) over 0 (nothing) to 1.
 *
 * @returns one step per slot; null where nothing is left to do
 */
export function stepsAt(slots: readonly Slot[], x: ArrayLike<number>): (Step | null)[] {
  let at = 0;
  return slots.map((slot) => {
    const values: Record<string, number> = { ...slot.fixed };
    let works = slot.fixed !== undefined;
    for (const { key, from, to: end } of slot.unknowns) {
      const { neutral } = stepKind(slot.kind).parameters.find((p) => p.key === key)!;
      const t = Math.min(1, Math.max(from < neutral ? -1 : 0, x[at++]));
      const value = neutral + (t < 0 ? t * (neutral - from) : t * (end - neutral));
      if (value === neutral) continue;
      values[key] = value;
      works = true;
    }
    if (!works) return null;
    return {
      kind: slot.kind,
      on: true,
      strength: 1,
      values,
      ...(slot.data ? { data: slot.data } : {}),
      ...(slot.area ? { area: slot.area } : {}),
    };
  });
}

export function recipeOf(steps: readonly (Step | null)[]): Recipe {
  return { schema: 'halflight/recipe@1', steps: steps.filter((step) => step !== null) };
}
