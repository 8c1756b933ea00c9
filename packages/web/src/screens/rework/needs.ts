import type { Area, Finding, HueArc, Intent, Step, StepData, StepId, StepKind } from '@halflight/engine';
import type { Seen } from '../../picture/desk.ts';

/** What is known of the work that steps may need. */
export interface Known {
  readonly intent: Intent;
  readonly seen: Seen | null;
}

/** A new step of a kind with its first values, and what it needs where that is known; the rest is asked for. */
export function firstStep(
  kind: StepKind,
  known: Known,
): { step: Step; missing: readonly (keyof StepData)[] } {
  const values = Object.fromEntries(kind.parameters.map(({ key, first }) => [key, first]));
  const data = firstData(kind.id, known);
  const place = kind.id === 'relight' ? shadeToRelight(known.seen) : null;
  const step: Step = {
    kind: kind.id,
    on: true,
    strength: 1,
    values,
    ...(Object.keys(data).length > 0 && { data }),
    ...(place && { data: { gains: place.gains }, area: placeArea([place.outline]) }),
  };
  return { step, missing: kind.needs.filter((need) => step.data?.[need] === undefined) };
}

/** An area of outlines as they were drawn or found. */
export function placeArea(outlines: readonly (readonly number[])[]): Area {
  return { soften: 0.01, parts: [{ joining: 'add', kind: 'outline', outlines }] };
}

function firstData(kind: StepId, { intent, seen }: Known): StepData {
  if (kind === 'accent') return intent.hue?.accent ? { families: [intent.hue.accent] } : {};
  if (kind !== 'gatherHues' && kind !== 'calmStrays') return {};
  const families = plannedFamilies({ intent, seen });
  return families.length > 0 ? { families } : {};
}

/** The families of the plan with its accent; those the picture has while nothing is planned. */
export function plannedFamilies({ intent, seen }: Known): HueArc[] {
  const { families = [], accent } = intent.hue ?? {};
  if (families.length > 0) return [...families, ...(accent ? [accent] : [])];
  const value = seen?.readings.find(({ id }) => id === 'hueSpread')?.value as
    | { families?: readonly { hue: number; weightShare: number }[] }
    | undefined;
  return (value?.families ?? [])
    .filter(({ weightShare }) => weightShare >= 0.15)
    .slice(0, 2)
    .map(({ hue }) => ({ hue: Math.round(hue) % 360, width: 50 }));
}

/** The largest place that the light reading flags, with the gains that give it the colour it should have. */
function shadeToRelight(
  seen: Seen | null,
): { gains: readonly [number, number, number]; outline: readonly number[] } | null {
  const places = (seen?.findings ?? [])
    .filter(({ reading }: Finding) => reading === 'light')
    .flatMap(({ places = [] }) => places)
    .sort((a, b) => b.share - a.share);
  for (const { outline, swatches = [] } of places) {
    if (!outline || swatches.length < 3) continue;
    const [now, should] = swatches.slice(-2);
    return { gains: gainsFrom(now.rgb, should.rgb), outline };
  }
  return null;
}

/** Gains per channel from one colour to another at the same luminance, held to what paint can mean. */
export function gainsFrom(
  now: readonly [number, number, number],
  should: readonly [number, number, number],
): readonly [number, number, number] {
  const floor = 1e-4;
  const light = (c: readonly number[]): number => 0.2126 * c[0] + 0.7152 * c[1] + 0.0722 * c[2];
  const level = Math.max(floor, light(now)) / Math.max(floor, light(should));
  const gain = (c: 0 | 1 | 2): number =>
    Math.min(8, Math.max(0.125, (level * Math.max(floor, should[c])) / Math.max(floor, now[c])));
  return [gain(0), gain(1), gain(2)];
}
