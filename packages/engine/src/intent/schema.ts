import * as v from 'valibot';
import type { Baseline } from './baseline.ts';
import type { Intent, MoodAxis } from './intent.ts';

/** A value from outside that was looked through: the thing itself, or what is wrong with it in one sentence. */
export type Checked<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly trouble: string };

/** Looks through an intent that comes from a file. Unknown fields are refused: they are mostly typing errors. */
export function checkIntent(value: unknown): Checked<Intent> {
  return look(intentSchema, value);
}

/** Looks through a baseline that comes from a file. */
export function checkBaseline(value: unknown): Checked<Baseline> {
  return look(baselineSchema, value);
}

const finite = v.pipe(v.number(), v.finite());
const positive = v.pipe(finite, v.minValue(0));
const share = v.pipe(finite, v.minValue(0), v.maxValue(1));
const rgb = v.tuple([finite, finite, finite]);
const target = v.strictObject({ at: finite, tolerance: positive });
const arc = v.strictObject({ hue: finite, width: v.pipe(positive, v.maxValue(360)) });
const outline = v.pipe(
  v.array(share),
  v.minLength(6),
  v.check((points) => points.length % 2 === 0, 'pairs of x and y'),
);

const axes: Record<MoodAxis, v.ExactOptionalSchema<typeof target, undefined>> = {
  warmCool: v.exactOptional(target),
  heavyLight: v.exactOptional(target),
  activePassive: v.exactOptional(target),
  key: v.exactOptional(target),
  contrast: v.exactOptional(target),
  hueSpread: v.exactOptional(target),
  softness: v.exactOptional(target),
};

const light = v.variant('kind', [
  v.strictObject({ kind: v.literal('situation'), name: v.string() }),
  v.strictObject({ kind: v.literal('surface'), lit: rgb, shade: rgb }),
  v.strictObject({ kind: v.literal('asRead') }),
]);

const intentSchema: v.GenericSchema<unknown, Intent> = v.strictObject({
  schema: v.literal('halflight/intent@1'),
  mood: v.exactOptional(
    v.strictObject({ words: v.exactOptional(v.array(v.string())), axes: v.strictObject(axes) }),
  ),
  light: v.exactOptional(light),
  focus: v.exactOptional(v.strictObject({ outlines: v.array(outline) })),
  hue: v.exactOptional(
    v.strictObject({
      families: v.array(arc),
      accent: v.exactOptional(arc),
      limit: v.exactOptional(positive),
    }),
  ),
  feel: v.exactOptional(v.string()),
  delivery: v.exactOptional(
    v.strictObject({
      space: v.picklist(['srgb', 'display-p3', 'a98-rgb']),
      longSide: v.exactOptional(v.pipe(finite, v.integer(), v.minValue(1))),
    }),
  ),
  layerLimit: v.exactOptional(v.pipe(finite, v.integer(), v.minValue(1))),
});

const baselineSchema: v.GenericSchema<unknown, Baseline> = v.strictObject({
  schema: v.literal('halflight/baseline@1'),
  works: v.pipe(finite, v.integer(), v.minValue(1)),
  measures: v.record(v.string(), v.strictObject({ p10: finite, p50: finite, p90: finite })),
});

function look<T>(schema: v.GenericSchema<unknown, T>, value: unknown): Checked<T> {
  const result = v.safeParse(schema, value);
  if (result.success) return { ok: true, value: result.output };
  return { ok: false, trouble: sentence(result.issues[0]) };
}

function sentence(issue: v.BaseIssue<unknown>): string {
  const path = v.getDotPath(issue);
  const place = path === null ? 'The whole' : `“${path}”`;
  if (issue.type === 'strict_object' && issue.expected === 'never') return `${place} is not known here.`;
  if (issue.received === 'undefined') return `${place} is missing.`;
  const wanted = issue.type === 'check' ? issue.message : (issue.expected ?? issue.type);
  return `${place} should be ${wanted}, but is ${issue.received}.`;
}
