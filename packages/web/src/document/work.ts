import {
  type Answer as FindingAnswer,
  type Intent,
  OPEN_INTENT,
  type ReadingId,
  type Recipe,
} from '@halflight/engine';

/**
 * One painting as the shelf holds it: its versions, what was decided for it, and what was answered.
 *
 * Immutable plain data (JSON). The pictures' bytes are kept apart, by the hash of their content.
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
  readonly intent: Intent;
  readonly answers: readonly Answer[];
  /** The edit; absent while there is none. */
  readonly recipe?: Recipe;
}

export const WORK_STATES = ['painting', 'editing', 'decided', 'delivered', 'resting'] as const;
export type WorkState = (typeof WORK_STATES)[number];

/** One state of the painting. */
export interface Version {
  readonly number: number;
  /** File name as it came, or "pasted picture". */
  readonly name: string;
  /** SHA-256 of the file's bytes, in hexadecimal: where they are kept. */
  readonly hash: string;
  /** Size of the file in bytes. */
  readonly bytes: number;
  readonly mediaType: string;
  readonly width: number;
  readonly height: number;
  readonly depth: 8 | 16;
  readonly profile: string;
  readonly tagged: boolean;
  readonly added: string;
}

/** The artist's answer to a finding, with what is needed to read it later. */
export interface Answer extends FindingAnswer {
  readonly reading: ReadingId;
  /** The finding's sentence when it was answered: answers stay readable when the finding is gone. */
  readonly sentence: string;
  readonly version: number;
  readonly at: string;
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
    intent: OPEN_INTENT,
    answers: [],
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
