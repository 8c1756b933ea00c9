import { workSchema } from '@halflight/files';
import * as v from 'valibot';
import type { Entry } from './history.ts';
import type { Work } from './work.ts';

/*
 * What a kept document must look like to be opened again. Objects are loose: fields that a newer version
 * wrote stay where they are.
 */

/** The steps' own shape is the engine's business: what it does not know is left out when the edit is made. */
const step = v.looseObject({
  kind: v.string(),
  on: v.boolean(),
  strength: v.number(),
  values: v.record(v.string(), v.number()),
});
const recipe = v.looseObject({ schema: v.literal('halflight/recipe@1'), steps: v.array(step) });

const { answer, glance, intent, look, state, version, work } = workSchema;

const decision = v.looseObject({ at: v.string(), version: v.number(), standing: v.array(v.string()) });
const outcome = v.nullable(v.picklist(['gone', 'smaller', 'still']));

const title = v.string();
const at = v.pipe(v.number(), v.integer(), v.minValue(0));

const command = v.variant('kind', [
  v.looseObject({ kind: v.literal('answer'), answers: v.pipe(v.array(answer), v.minLength(1)) }),
  v.looseObject({ kind: v.literal('takeBack'), key: v.string() }),
  v.looseObject({
    kind: v.literal('decide'),
    part: v.picklist(['mood', 'light', 'focus', 'hue', 'feel', 'delivery', 'layerLimit']),
    intent,
    at: v.exactOptional(v.string()),
  }),
  v.looseObject({ kind: v.literal('rename'), title: v.string() }),
  v.looseObject({ kind: v.literal('setState'), state }),
  v.looseObject({ kind: v.literal('addStep'), title, step }),
  v.looseObject({ kind: v.literal('changeStep'), title, at, step }),
  v.looseObject({ kind: v.literal('switchStep'), title, at, on: v.boolean() }),
  v.looseObject({ kind: v.literal('moveStep'), title, at, to: at }),
  v.looseObject({ kind: v.literal('removeStep'), title, at }),
  v.looseObject({ kind: v.literal('takeRecipe'), title, recipe }),
  v.looseObject({
    kind: v.literal('addVersion'),
    version: v.omit(version, ['number']),
    pose: v.nullable(workSchema.pose),
    outcomes: v.exactOptional(v.array(outcome)),
    glance: v.exactOptional(v.string()),
  }),
  v.looseObject({ kind: v.literal('glance'), glance }),
  v.looseObject({ kind: v.literal('dropGlance'), id: v.string() }),
  v.looseObject({ kind: v.literal('addLook'), look }),
  v.looseObject({ kind: v.literal('callDone'), decision }),
  v.looseObject({ kind: v.literal('reopen') }),
]);

const entry = v.variant('kind', [
  v.looseObject({ kind: v.literal('do'), command }),
  v.looseObject({ kind: v.literal('undo') }),
  v.looseObject({ kind: v.literal('redo') }),
]);

const snapshot = v.looseObject({
  schema: v.literal('halflight/kept@1'),
  /** Number of the last journal line that is in here. */
  line: v.number(),
  base: work,
  done: v.array(command),
  undone: v.array(command),
});

/** A work with its history as it is kept between two journals. */
export interface Snapshot {
  readonly schema: 'halflight/kept@1';
  readonly line: number;
  readonly base: Work;
  readonly done: Extract<Entry, { kind: 'do' }>['command'][];
  readonly undone: Extract<Entry, { kind: 'do' }>['command'][];
}

/** The snapshot in this JSON value, or null when it is none. */
export function asSnapshot(value: unknown): Snapshot | null {
  const result = v.safeParse(snapshot, value);
  return result.success ? (result.output as unknown as Snapshot) : null;
}

/** The journal entry in this JSON value, or null when it is none. */
export function asEntry(value: unknown): Entry | null {
  const result = v.safeParse(entry, value);
  return result.success ? (result.output as unknown as Entry) : null;
}
