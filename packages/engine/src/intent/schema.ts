import * as v from 'valibot';
import type { Baseline } from './baseline.ts';
import { blendMood } from './blendMood.ts';
import type { Intent, MoodAxis } from './intent.ts';
import { issueSentence } from './issueSentence.ts';
import { MOOD_WORDS, placeOf } from './moodWords.ts';
import { nearMiss } from './nearMiss.ts';

/** A value from outside that was looked through: the thing itself, or what is wrong with it in one sentence. */
export type Checked<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly trouble: string };

/**
 * Looks through an intent that comes from a file.
 *
 * Fields that are not known here are kept as they are: a newer program may have written them. Only those that look
 * like a misspelt known one are refused. A mood with words or examples and no axes gets the axes they stand for.
 */
export function checkIntent(value: unknown): Checked<Intent> {
  const checked = look(intentSchema, value, 'halflight/intent@');
  if (!checked.ok || !checked.value.mood) return checked;
  const { mood } = checked.value;
  const unknown = (mood.words ?? []).find((word) => placeOf(word, mood.ownWords) === null);
  if (unknown !== undefined) return { ok: false, trouble: unknownWord(unknown) };
  const given = Object.values(mood.axes).some((target) => target !== undefined);
  if (given) return checked;
  return { ok: true, value: { ...checked.value, mood: { ...mood, axes: blendMood(mood) } } };
}

/** Looks through a baseline that comes from a file; fields that are not known here are kept as they are. */
export function checkBaseline(value: unknown): Checked<Baseline> {
  return look(baselineSchema, value, 'halflight/baseline@');
}

/** An object that keeps fields of newer programs but not misspelt ones. */
function open<const T extends v.ObjectEntries>(entries: T) {
  const known = Object.keys(entries);
  return v.pipe(
    v.looseObject(entries),
    v.rawCheck(({ dataset, addIssue }) => {
      if (!dataset.typed) return;
      for (const key of Object.keys(dataset.value)) {
        const meant = known.includes(key) ? null : nearMiss(key, known);
        if (meant !== null) addIssue({ message: `“${key}” is not known here; “${meant}” may be meant.` });
      }
    }),
  );
}

const finite = v.pipe(v.number(), v.finite());
const positive = v.pipe(finite, v.minValue(0));
const share = v.pipe(finite, v.minValue(0), v.maxValue(1));
const triple = v.tuple([finite, finite, finite]);
const target = open({ at: finite, tolerance: positive });
// Once round in either direction is enough; hues without end would be counted through without end.
const degrees = v.pipe(finite, v.minValue(-360), v.maxValue(720));
const arc = open({ hue: degrees, width: v.pipe(positive, v.maxValue(360)) });
const outline = v.pipe(
  v.array(share),
  v.minLength(6),
  v.check((points) => points.length % 2 === 0, 'should be pairs of x and y'),
);

/** The same optional entry for every axis. */
function onAxes<S extends v.GenericSchema<unknown, unknown>>(
  schema: S,
): Record<MoodAxis, v.ExactOptionalSchema<S, undefined>> {
  const entry = v.exactOptional(schema);
  return {
    warmCool: entry,
    heavyLight: entry,
    activePassive: entry,
    key: entry,
    contrast: entry,
    hueSpread: entry,
    softness: entry,
  };
}

const example = open({
  name: v.string(),
  mean: triple,
  covariance: v.tuple([finite, finite, finite, finite, finite, finite]),
  measures: open(onAxes(finite)),
});

const mood = open({
  words: v.exactOptional(v.array(v.string())),
  ownWords: v.exactOptional(v.record(v.string(), open(onAxes(target)))),
  examples: v.exactOptional(v.array(example)),
  // Empty in a file means: what the words and examples say.
  axes: v.optional(open(onAxes(target)), {}),
  weights: v.exactOptional(open(onAxes(positive))),
});

const light = v.variant('kind', [
  v.looseObject({ kind: v.literal('situation'), name: v.string() }),
  v.looseObject({ kind: v.literal('surface'), lit: triple, shade: triple }),
  v.looseObject({ kind: v.literal('asRead') }),
]);

const hue = open({
  families: v.optional(v.array(arc), []),
  accent: v.exactOptional(arc),
  limit: v.exactOptional(v.pipe(finite, v.minValue(1))),
});

const intentSchema: v.GenericSchema<unknown, Intent> = open({
  schema: v.literal('halflight/intent@1'),
  mood: v.exactOptional(mood),
  light: v.exactOptional(light),
  focus: v.exactOptional(open({ outlines: v.array(outline) })),
  hue: v.exactOptional(hue),
  feel: v.exactOptional(v.string()),
  delivery: v.exactOptional(
    open({
      space: v.picklist(['srgb', 'display-p3', 'a98-rgb']),
      longSide: v.exactOptional(v.pipe(finite, v.integer(), v.minValue(1))),
    }),
  ),
  layerLimit: v.exactOptional(v.pipe(finite, v.integer(), v.minValue(1))),
});

const range = v.pipe(
  open({ p10: finite, p50: finite, p90: finite }),
  v.check(({ p10, p50, p90 }) => p10 <= p50 && p50 <= p90, 'should rise from p10 to p90'),
);

const baselineSchema: v.GenericSchema<unknown, Baseline> = open({
  schema: v.literal('halflight/baseline@1'),
  works: v.pipe(finite, v.integer(), v.minValue(1)),
  measures: v.record(v.string(), range),
});

function look<T>(schema: v.GenericSchema<unknown, T>, value: unknown, kind: string): Checked<T> {
  const version = versionOf(value, kind);
  if (version > 1) return { ok: false, trouble: `It was written by a newer Halflight (${kind}${version}).` };
  const result = v.safeParse(schema, value);
  if (result.success) return { ok: true, value: result.output };
  return { ok: false, trouble: issueSentence(result.issues[0]) };
}

function versionOf(value: unknown, kind: string): number {
  const schema = (value as { schema?: unknown } | null)?.schema;
  return typeof schema === 'string' && schema.startsWith(kind) ? Number(schema.slice(kind.length)) : 0;
}

function unknownWord(word: string): string {
  const words = MOOD_WORDS.map((entry) => entry.word);
  const meant = nearMiss(word, words);
  return `“mood.words” names “${word}”, which has no place on the axes; ${
    meant ? `“${meant}” may be meant` : `known are ${words.join(', ')}`
  }.`;
}
