import { hueName } from '../../colour/words.ts';
import type { Finding, Origin } from '../../findings/finding.ts';
import { COUNTED_FAMILY, HUE_SPREAD } from '../../findings/thresholds/hueSpread.ts';
import { forArtist, severityOf, type Threshold, unusualFor } from '../../findings/thresholds/threshold.ts';
import { countWord, listOf, percent, percentBeside, sentence } from '../../findings/wording.ts';
import type { Reading, ReadingInput } from '../reading.ts';
import type { HueFamily } from './families.ts';
import { nearestArc, onArcs, plannedSpread, planOf } from './plan.ts';
import { strayPlaces } from './strays.ts';
import type { HueSpreadValue } from './types.ts';

const SPREAD = 'hueSpread.effectiveHues';
/** A family this many degrees outside the plan is another hue, not the planned one gone astray. */
const ANOTHER_HUE = 10;

/** Findings of the hue spread, at most one each of: strays from the plan, too many hues, an accent too large. */
export function hueFindings({ value }: Reading<HueSpreadValue>, input: ReadingInput): Finding[] {
  const strays = straysFinding(value, input);
  // An unplanned spread is what the strays already tell.
  const many = strays && input.intent.hue?.limit === undefined ? null : manyFinding(value, input);
  const unusual = many || strays || input.intent.hue ? null : unusualFinding(value, input);
  return [strays, many, accentFinding(value, input), unusual].filter((f) => f !== null);
}

/** Families large enough to be counted in a sentence, accents apart. */
export function countedFamilies(value: Pick<HueSpreadValue, 'families'>): HueFamily[] {
  return value.families.filter((f) => f.weightShare >= COUNTED_FAMILY && !f.accent);
}

function straysFinding(value: HueSpreadValue, input: ReadingInput): Finding | null {
  if (!value.planned || value.strayShare === null) return null;
  const severity = severityOf(value.strayShare, HUE_SPREAD.strays);
  if (severity === 0) return null;
  const plan = planOf(input.intent.hue, value.families);
  const allowed = plan.accent ? [...plan.arcs, plan.accent] : plan.arcs;
  const others = countedFamilies(value).filter((f) => !onArcs(f.hue, allowed, ANOTHER_HUE));
  const kept = plan.arcs.filter((arc) =>
    countedFamilies(value).some((f) => onArcs(f.hue, [arc], ANOTHER_HUE)),
  );
  const planned = plan.arcs.length;
  const hues = kept.length + others.length;
  const text =
    hues > planned
      ? `${sentence(countWord(hues))} hues where ${countWord(planned)} ${planned === 1 ? 'was' : 'were'} planned.`
      : others.length > 0
        ? `${sentence(listOf(others.map((f) => f.name)))} ${others.length === 1 ? 'was' : 'were'} not planned.`
        : 'The hues wander off the plan.';
  const towards = others[0] && hueName(nearestArc(others[0].hue, plan.arcs).hue);
  return {
    key: 'hueSpread.strays',
    reading: 'hueSpread',
    severity,
    text,
    number: `${percentBeside(value.strayShare, HUE_SPREAD.strays.from)} of the colour lies outside ${listOf([...new Set(plan.arcs.map((a) => hueName(a.hue)))])} (up to ${percent(HUE_SPREAD.strays.from)} passes)`,
    todo: others[0]
      ? `Calm the ${others[0].name} or turn it towards ${towards}${others.length > 1 ? `, then the ${listOf(others.slice(1).map((f) => f.name))}` : ''}.`
      : 'Gather the hues closer to the planned ones where the map shows them.',
    origin: { kind: 'intent', text: HUE_SPREAD.strays.origin.text },
    map: 'strays',
    places: strayPlaces(input.views.close, plan, input.leftOut),
  };
}

function manyFinding(value: HueSpreadValue, input: ReadingInput): Finding | null {
  const { effectiveHues } = value;
  if (effectiveHues === null) return null;
  const families = countedFamilies(value);
  const threshold = spreadThreshold(value, families[2]?.weightShare ?? 0, input);
  const severity = severityOf(effectiveHues, threshold);
  if (severity === 0) return null;
  const names = families.map((f) => f.name);
  const decided = input.intent.hue?.limit !== undefined;
  const text =
    families.length > 2
      ? `${sentence(countWord(families.length))} hues compete: ${listOf(names)}.`
      : families.length === 2
        ? `The hues scatter widely, ${names.join(' and ')} alike.`
        : `The hues run a long way${names[0]?.includes(' to ') ? `, from ${names[0]}` : ''}.`;
  const todo =
    families.length > 2
      ? `Let one or two carry the mood; turn or calm the rest, ${names[names.length - 1]} first.`
      : families.length === 2
        ? `Let one lead: gather it closer around its middle and calm the ${names[1]}.`
        : 'Gather the hues around the one that carries the mood.';
  return {
    key: 'hueSpread.many',
    reading: 'hueSpread',
    severity,
    text,
    number: `spread of ${effectiveHues.toFixed(1)} hues, ${decided ? 'your limit is' : 'many from'} ${threshold.from.toFixed(1)}`,
    todo,
    origin: threshold.origin,
    map: 'strays',
  };
}

/** From where on the spread is a finding: by the plan, the mood, the baseline, and the weight of the third family. */
export function spreadThreshold(
  value: Pick<HueSpreadValue, 'planned' | 'families'>,
  third: number,
  input: Pick<ReadingInput, 'intent' | 'baseline'>,
): Threshold {
  const { hue, mood } = input.intent;
  const intended: Origin = { kind: 'intent', text: 'your hue plan' };
  if (hue?.limit !== undefined) return { from: hue.limit, strong: 1.35 * hue.limit, origin: intended };
  // A third family counts the more the larger it is, so that no finding jumps up when one is just large enough.
  const t = Math.min(1, Math.max(0, (third - COUNTED_FAMILY) / COUNTED_FAMILY));
  const { many, manyOfTwo } = HUE_SPREAD;
  const between = (a: number, b: number): number => a + t * (b - a);
  const usual = forArtist(
    {
      from: between(manyOfTwo.from, many.from),
      strong: between(manyOfTwo.strong, many.strong),
      origin: many.origin,
    },
    input.baseline,
    SPREAD,
  );
  const raise = (from: number, origin: Origin, threshold: Threshold): Threshold =>
    from > threshold.from ? { from, strong: from + threshold.strong - threshold.from, origin } : threshold;
  let threshold = usual;
  if (value.planned) threshold = raise(plannedSpread(planOf(hue, value.families)), intended, threshold);
  const target = mood?.axes.hueSpread;
  if (target)
    threshold = raise(target.at + target.tolerance, { kind: 'intent', text: 'your mood' }, threshold);
  return threshold;
}

function accentFinding(value: HueSpreadValue, input: ReadingInput): Finding | null {
  const accent = input.intent.hue?.accent;
  if (!accent || value.accentAreaShare === null) return null;
  const severity = severityOf(value.accentAreaShare, HUE_SPREAD.accent);
  if (severity === 0) return null;
  const name = hueName(accent.hue);
  return {
    key: 'hueSpread.accent',
    reading: 'hueSpread',
    severity,
    text: `The ${name} accent is too large to be one.`,
    number: `${percentBeside(value.accentAreaShare, HUE_SPREAD.accent.from)} of the picture, an accent takes up to ${percent(HUE_SPREAD.accent.from)}`,
    todo: `Keep the ${name} for the one place that should catch the eye, and calm it elsewhere.`,
    origin: HUE_SPREAD.accent.origin,
    map: 'accent',
  };
}

function unusualFinding(value: HueSpreadValue, input: ReadingInput): Finding | null {
  const unusual = unusualFor(value.effectiveHues, input.baseline, SPREAD, 1);
  if (!unusual) return null;
  const more = unusual.direction === 'more';
  return {
    key: 'hueSpread.unusual',
    reading: 'hueSpread',
    severity: unusual.severity,
    text: `${more ? 'More' : 'Fewer'} hues than you usually use.`,
    number: `spread of ${value.effectiveHues!.toFixed(1)} hues, ${unusual.range}`,
    todo: more
      ? 'If that was not the plan, gather the hues around the family that carries the mood.'
      : 'If that was not the plan, let a second hue in, away from the first one.',
    origin: unusual.origin,
  };
}

/** What to say when nothing is wrong, about this picture. */
export function hueFine({ value }: Reading<HueSpreadValue>): string {
  const families = countedFamilies(value);
  const names = families.map((f) => f.name);
  const accent = value.families.find((f) => f.accent);
  const spark = accent ? `, with ${article(accent.name)} ${accent.name} accent` : '';
  if (value.planned) {
    const kept = percent(1 - (value.strayShare ?? 0));
    return `${sentence(listOf(names))}${spark}: ${kept} of the colour keeps to the plan.`;
  }
  if (names.length === 0) return 'A few small colours on grey, none of them leading.';
  if (names.length === 1) return `One hue family, ${names[0]}${spark}.`;
  return `${sentence(countWord(names.length))} hue families, ${listOf(names)}${spark}; ${names[0]} leads with ${percent(families[0].weightShare)} of the colour.`;
}

function article(word: string): string {
  return /^[aeio]/.test(word) ? 'an' : 'a';
}
