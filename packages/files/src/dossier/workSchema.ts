import * as v from 'valibot';
import { WORK_STATES, type Work } from './work.ts';

const finite = v.pipe(v.number(), v.finite());
const count = v.pipe(finite, v.integer(), v.minValue(0));
const share = v.pipe(finite, v.minValue(0), v.maxValue(1));
const point = v.tuple([finite, finite]);
const moment = v.pipe(
  v.string(),
  v.check((text) => !Number.isNaN(Date.parse(text)), 'should be a date (ISO 8601)'),
);

/** SHA-256 in hexadecimal. */
export const hash = v.pipe(v.string(), v.regex(/^[0-9a-f]{64}$/, 'should be a SHA-256 in hexadecimal'));

const sheet = {
  name: v.string(),
  width: count,
  height: count,
  depth: v.picklist([8, 16]),
  profile: v.string(),
  tagged: v.boolean(),
  added: moment,
  readings: v.exactOptional(hash),
  small: v.exactOptional(hash),
} as const;

/** How a later version lies on an earlier one. */
export const pose = v.looseObject({
  mirrored: v.boolean(),
  turns: v.picklist([0, 1, 2, 3]),
  x: finite,
  y: finite,
  width: finite,
  height: finite,
});

const change = v.looseObject({
  from: count,
  pose,
  impact: finite,
  impactP95: finite,
  changedShare: share,
  effort: share,
  effortWithoutImpact: share,
});

/** A version. */
export const version = v.looseObject({
  ...sheet,
  number: count,
  hash,
  bytes: count,
  mediaType: v.string(),
  minutes: v.exactOptional(v.pipe(finite, v.minValue(0))),
  change: v.exactOptional(change),
});

/** A paste that was only read. */
export const glance = v.looseObject({ ...sheet, id: v.string() });

/** An answer to a finding. */
export const answer = v.looseObject({
  key: v.string(),
  reading: v.string(),
  kind: v.picklist(['willDo', 'meantSo', 'wrong']),
  severity: finite,
  reason: v.exactOptional(v.string()),
  outline: v.exactOptional(v.array(finite)),
  sentence: v.string(),
  version: count,
  at: v.string(),
  outcome: v.exactOptional(
    v.looseObject({ version: count, state: v.picklist(['gone', 'smaller', 'still']) }),
  ),
});

/** The intent's own shape is the engine's business; here it must only be one. */
export const intent = v.looseObject({ schema: v.literal('halflight/intent@1') });

/** So is the recipe's. */
export const recipe = v.looseObject({ schema: v.literal('halflight/recipe@1'), steps: v.array(v.unknown()) });

export const state = v.picklist(WORK_STATES);

/** A quiet look. */
export const look = v.looseObject({
  at: moment,
  version: count,
  by: v.picklist(['own', 'guest']),
  seconds: finite,
  mirrored: v.boolean(),
  first: v.exactOptional(point),
  mood: v.exactOptional(share),
  pulledOut: v.exactOptional(
    v.looseObject({ place: v.exactOptional(point), word: v.exactOptional(v.string()) }),
  ),
  verdict: v.exactOptional(v.picklist(['done', 'oneMore', 'rest'])),
});

/**
 * What a kept work must look like to be opened again. Objects are loose: fields that a newer version wrote stay
 * where they are. Lists that older versions did not have are empty.
 */
export const work = v.looseObject({
  schema: v.literal('halflight/work@1'),
  id: v.pipe(v.string(), v.minLength(1)),
  title: v.string(),
  created: v.string(),
  state,
  versions: v.pipe(v.array(version), v.minLength(1, 'should hold at least one version')),
  glances: v.optional(v.array(glance), []),
  intent,
  pastIntents: v.optional(v.array(v.looseObject({ intent, until: v.string() })), []),
  recipe: v.exactOptional(recipe),
  answers: v.array(answer),
  looks: v.optional(v.array(look), []),
  decision: v.exactOptional(v.looseObject({ at: moment, version: count, standing: v.array(v.string()) })),
}) as unknown as v.GenericSchema<unknown, Work>;
