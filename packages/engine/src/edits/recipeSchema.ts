import * as v from 'valibot';
import { issueSentence } from '../intent/issueSentence.ts';
import type { Checked } from '../intent/schema.ts';
import { STEPS, stepKind } from './list.ts';
import { type Recipe, type Step, settingOf } from './step.ts';

const finite = v.pipe(v.number(), v.finite());
const share = v.pipe(finite, v.minValue(0), v.maxValue(1));
/** Shares of the picture; what lies farther out than a thousand pictures is no place. */
const place = v.pipe(finite, v.minValue(-1000), v.maxValue(1000));
/** Hues, once round in either direction. */
const degrees = v.pipe(finite, v.minValue(-360), v.maxValue(720));
const pair = v.tuple([place, place]);
const triple = v.tuple([finite, finite, finite]);
const above = v.pipe(finite, v.gtValue(0));
const positive = v.tuple([above, above, above]);
const outline = v.pipe(
  v.array(place),
  v.minLength(6),
  v.check((points) => points.length % 2 === 0, 'should be pairs of x and y'),
);
const joining = v.picklist(['add', 'subtract', 'keep']);
const part = v.variant('kind', [
  v.looseObject({ joining, kind: v.literal('outline'), outlines: v.array(outline) }),
  v.looseObject({ joining, kind: v.literal('values'), from: finite, to: finite }),
  v.looseObject({ joining, kind: v.literal('hues'), hue: degrees, width: finite }),
  v.looseObject({ joining, kind: v.literal('gradient'), from: pair, to: pair }),
]);
const statistics = v.looseObject({
  mean: triple,
  covariance: v.pipe(v.array(finite), v.length(9)),
});
const arcs = v.array(v.looseObject({ hue: degrees, width: v.pipe(finite, v.minValue(0), v.maxValue(360)) }));
const data = v.looseObject({
  families: v.optional(arcs),
  keep: v.optional(arcs),
  colour: v.optional(triple),
  gains: v.optional(positive),
  across: v.optional(v.looseObject({ cool: positive, warm: positive, gains: positive })),
  from: v.optional(statistics),
  to: v.optional(statistics),
});
const step = v.looseObject({
  kind: v.picklist(STEPS.map((k) => k.id)),
  on: v.optional(v.boolean(), true),
  strength: v.optional(share, 1),
  values: v.optional(v.record(v.string(), finite), {}),
  data: v.optional(data),
  area: v.optional(v.looseObject({ parts: v.array(part), soften: v.optional(share, 0) })),
  reason: v.optional(v.string()),
});
const recipe = v.looseObject({
  schema: v.literal('halflight/recipe@1'),
  steps: v.array(step),
  kept: v.optional(v.array(outline)),
});

/**
 * Looks through a recipe that comes from a file.
 *
 * Fields that are not known here are kept: a newer program may have written them. Numbers outside a parameter's
 * range and steps without the data they need are refused with a sentence.
 */
export function checkRecipe(value: unknown): Checked<Recipe> {
  const schema = typeof value === 'object' && value !== null ? Reflect.get(value, 'schema') : undefined;
  if (typeof schema === 'string' && schema.startsWith('halflight/recipe@') && schema !== 'halflight/recipe@1')
    return { ok: false, trouble: `This recipe is of a newer kind (${schema}); a newer Halflight reads it.` };
  const result = v.safeParse(recipe, value);
  if (!result.success) return { ok: false, trouble: issueSentence(result.issues[0]) };
  const checked = result.output as unknown as Recipe;
  for (const [k, one] of checked.steps.entries()) {
    const trouble = stepTrouble(one);
    if (trouble) return { ok: false, trouble: `Step ${k + 1} (${one.kind}): ${trouble}` };
  }
  return { ok: true, value: checked };
}

function stepTrouble(one: Step): string | null {
  const kind = stepKind(one.kind);
  const missing = kind.needs.find((key) => one.data?.[key] === undefined);
  if (missing) return `it needs “data.${missing}”.`;
  for (const key of Object.keys(one.values)) {
    const parameter = kind.parameters.find((p) => p.key === key);
    if (!parameter)
      return `it has no value “${key}”; it knows ${kind.parameters.map((p) => p.key).join(', ')}.`;
    if (settingOf(one, parameter) !== one.values[key])
      return `“${key}” is ${one.values[key]}; it goes from ${parameter.min} to ${parameter.max}.`;
  }
  return null;
}
