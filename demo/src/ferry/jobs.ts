/** What can be done on another core: a band of the cast, or rows of a version. Plain data in and out. */
import type { Passes } from '../scene/index.ts';
import { composeVersion, drawRows } from './paintVersion.ts';
import { type CastJob, cast, type Study } from './study.ts';
import { type Truth, truthOf } from './truth.ts';
import { versionOf } from './versions.ts';

export interface PaintJob {
  readonly study: Study;
  readonly version: number;
  readonly width: number;
  readonly height: number;
  readonly rows: readonly [number, number];
  /** Whether the truth is wanted with it. */
  readonly truth: boolean;
}

export type Job =
  | { readonly kind: 'cast'; readonly job: CastJob }
  | { readonly kind: 'paint'; readonly job: PaintJob };
export type Result =
  | { readonly kind: 'cast'; readonly passes: Passes }
  | { readonly kind: 'paint'; readonly pixels: Uint8Array; readonly truth: Truth | null };

/** Does a job here and now. */
export function work(order: Job): Result {
  if (order.kind === 'cast') return { kind: 'cast', passes: cast(order.job) };
  const { study, version, width, height, rows, truth } = order.job;
  const v = versionOf(version);
  const painting = composeVersion(study, v);
  const pixels = drawRows(painting, width, height, rows[0], rows[1]);
  return { kind: 'paint', pixels, truth: truth ? truthOf(study, v, painting) : null };
}
