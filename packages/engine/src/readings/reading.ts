import type { Census } from '../census/census.ts';
import type { Drawing } from '../drawings/drawing.ts';
import type { Finding } from '../findings/finding.ts';
import type { Baseline } from '../intent/baseline.ts';
import type { Intent } from '../intent/intent.ts';
import type { LayersReading } from '../layers/read.ts';
import type { PictureFacts } from '../views/raster.ts';
import type { Field, Views } from '../views/view.ts';

/** Names of the readings; they are the keys of `check --json`. */
export type ReadingId = 'hueSpread' | 'headroom' | 'light' | 'value' | 'detail' | 'mood' | 'openDecisions';

/** How much of the picture supports a reading. A weak reading abstains: it makes no finding. */
export interface Evidence {
  readonly level: 'strong' | 'fair' | 'weak';
  /** Why, a short sentence. */
  readonly reason: string;
  /** True where there is nothing to read at all: then nobody is told that it can't be told. */
  readonly unasked?: boolean;
}

/** Everything a reading may look at. */
export interface ReadingInput {
  readonly picture: PictureFacts;
  readonly census: Census;
  readonly views: Views;
  readonly intent: Intent;
  readonly baseline: Baseline | null;
  /** Areas the artist left out of this reading ("wrong"), at close-view size, 1 = left out; null when none. */
  readonly leftOut: Field | null;
  /** True for a photograph or screenshot of a work: its light is not judged. */
  readonly photographed: boolean;
  /** What its layers are worth; null for a picture without layers. */
  readonly layers: LayersReading | null;
}

/** What a reading found. `value` is plain data (JSON), null inside where a number has no meaning. */
export interface Reading<V> {
  readonly value: V;
  readonly evidence: Evidence;
  /** Maps by name, made when asked for; files of `check --maps` and overlays are made from them. */
  readonly maps: Readonly<Record<string, () => Field>>;
}

/** One number of a reading as screens, tables, the class plane and the baseline use it. */
export interface Measure<V> {
  readonly key: string;
  /** In painter's language, e.g. "warm against cool". */
  readonly label: string;
  readonly unit: string;
  /** Digits after the point. */
  readonly digits: number;
  /** The number, or null where it has no meaning. */
  get(value: V): number | null;
}

/** A reading as one description: add it to the list in `list.ts` and it appears everywhere. */
export interface ReadingKind<V = unknown> {
  readonly id: ReadingId;
  /** Name on screens, e.g. "Hue spread". */
  readonly title: string;
  /** What it tells, one sentence. */
  readonly about: string;
  /** Papers and standards behind it. */
  readonly sources: readonly string[];
  readonly measures: readonly Measure<V>[];
  /** Maps written by `check --maps`: map name to file suffix. */
  readonly mapFiles: Readonly<Record<string, string>>;
  /** The part of the intent that `read` looks at: while it stays equal, a reading is not made again. */
  needs?(intent: Intent): unknown;
  read(input: ReadingInput): Reading<V>;
  /** Findings against the intent; never called when the evidence is weak. */
  findings(reading: Reading<V>, input: ReadingInput): Finding[];
  /** One sentence when all is well, e.g. "Two hue families, as planned." */
  fine(reading: Reading<V>, input: ReadingInput): string;
  draw(reading: Reading<V>, input: ReadingInput): Drawing;
}
