import type {
  Change,
  Answer as FindingAnswer,
  Intent,
  Look,
  Outcome,
  PictureFacts,
  ReadingId,
  Recipe,
} from '@halflight/engine';
import { OPEN_INTENT } from '@halflight/engine';

export type { Look };

/**
 * One painting as a shelf holds it: its versions, what was decided for it, and what was answered.
 *
 * Immutable plain data (JSON), the same in the app's store and in a dossier. Bytes (pictures, small pictures,
 * readings) are kept apart, by the SHA-256 of their content.
 */
export interface Work {
  readonly schema: 'halflight/work@1';
  readonly id: string;
  readonly title: string;
  /** When it came onto the shelf, ISO 8601. */
  readonly created: string;
  readonly state: WorkState;
  /** In the order they came; the last one is shown. Never empty. */
  readonly versions: readonly Version[];
  /** Pastes that were only read, in the order they came. */
  readonly glances: readonly Glance[];
  readonly intent: Intent;
  /** What was decided before, the oldest first. */
  readonly pastIntents: readonly PastIntent[];
  /** The edit; absent before the first one. */
  readonly recipe?: Recipe;
  readonly answers: readonly Answer[];
  /** Quiet looks, in the order they were taken. */
  readonly looks: readonly Look[];
  /** When the artist called it done; absent while it is not. */
  readonly decision?: Decision;
}

export const WORK_STATES = ['painting', 'editing', 'decided', 'delivered', 'resting'] as const;
export type WorkState = (typeof WORK_STATES)[number];

/** What is known of a picture's file without its bytes. */
export interface PictureSheet extends PictureFacts {
  /** When it came, ISO 8601. */
  readonly added: string;
  /** Hash of its readings, a line of `halflight/check@1` (JSON). */
  readonly readings?: string;
  /** Hash of a small picture of it (WebP). */
  readonly small?: string;
}

/** One state of the painting. */
export interface Version extends PictureSheet {
  readonly number: number;
  /** SHA-256 of the file's bytes, in hexadecimal: where they are kept. */
  readonly hash: string;
  /** Size of the file in bytes. */
  readonly bytes: number;
  readonly mediaType: string;
  /** Minutes of work since the version before, where they are known. */
  readonly minutes?: number;
  /** What changed since the version before. */
  readonly change?: VersionChange;
}

/** A paste that was only read: its readings and a small picture, until it is kept and becomes a version. */
export interface Glance extends PictureSheet {
  readonly id: string;
}

/** What changed since an earlier version, over what both show; absent when nothing of one is seen in the other. */
export interface VersionChange extends Change {
  /** Number of the version it is compared with. */
  readonly from: number;
}

export interface PastIntent {
  readonly intent: Intent;
  /** When it was replaced, ISO 8601. */
  readonly until: string;
}

/** The artist's answer to a finding, with what is needed to read it later. */
export interface Answer extends FindingAnswer {
  readonly reading: ReadingId;
  /** The finding's sentence when it was answered: answers stay readable when the finding is gone. */
  readonly sentence: string;
  readonly version: number;
  readonly at: string;
  /** What a later version said to a "will do", the latest one. */
  readonly outcome?: { readonly version: number; readonly state: Outcome };
}

/** The decision that a work is done, with what stood then. */
export interface Decision {
  readonly at: string;
  readonly version: number;
  /** Sentences of the findings that still stood. */
  readonly standing: readonly string[];
}

/** The version on the easel. */
export function currentVersion(work: Work): Version {
  return work.versions[work.versions.length - 1];
}

/** A new work from its first picture. */
export function newWork(id: string, title: string, version: Version): Work {
  return {
    schema: 'halflight/work@1',
    id,
    title,
    created: version.added,
    state: 'painting',
    versions: [version],
    glances: [],
    intent: OPEN_INTENT,
    pastIntents: [],
    answers: [],
    looks: [],
  };
}

/** "ferry-landing_04.final.png" becomes "Ferry landing 04 final". */
export function titleFromName(name: string): string {
  const words = name
    .replace(/\.[A-Za-z0-9]{1,5}$/, '')
    .replace(/[-_.\s]+/g, ' ')
    .trim();
  if (words === '') return 'Untitled';
  return words[0].toUpperCase() + words.slice(1);
}

/** Hashes of everything whose bytes a work needs, each once. */
export function thingsOf(work: Work): string[] {
  const sheets: readonly PictureSheet[] = [...work.versions, ...work.glances];
  const beside = sheets.flatMap(({ readings, small }) => [readings, small]);
  const pictures = work.versions.map(({ hash }) => hash);
  return [...new Set([...pictures, ...beside].filter((hash) => hash !== undefined))];
}
