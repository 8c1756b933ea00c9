import type { Change, Intent, Outcome, PictureFacts } from '@halflight/engine';
import type { Answer } from '../document/work.ts';
import type { Progress, Seen, SeenMap } from './desk.ts';

/** A version's file, as the store has it. */
export interface VersionFile {
  /** SHA-256 of the bytes: what was looked at once is known by it. */
  readonly hash: string;
  readonly name: string;
  /** Null for the picture that is open. */
  readonly file: Blob | null;
}

/** What changed between two versions, with maps on the earlier one. */
export interface SeenComparison extends Change {
  /** Share of the earlier picture that both show. */
  readonly overlap: number;
  /** The earlier picture, to lay the maps over. */
  readonly bitmap: ImageBitmap;
  /** Where the whole view changed. */
  readonly far: SeenMap;
  /** Where fine detail was drawn anew while the whole view stayed as it was. */
  readonly near: SeenMap;
}

/** What a quiet look is compared with. */
export interface LookFacts {
  /** L* of a neutral grey as light as the picture is on the average. */
  readonly average: number;
  /** Where the eye is predicted to go first. */
  readonly predicted: SeenMap;
  /** The focus as drawn; null when none is. */
  readonly focus: SeenMap | null;
}

/** One number of a reading over versions. */
export interface CourseMeasure {
  readonly key: string;
  readonly label: string;
  readonly unit: string;
  readonly digits: number;
  /** One for each version; null where it was not read or can't be told. */
  readonly values: readonly (number | null)[];
}

/** A reading over versions. */
export interface Course {
  readonly reading: string;
  readonly title: string;
  readonly measures: readonly CourseMeasure[];
}

/** Calls about a work's versions. */
export interface TimeDesk {
  /** The open picture is the newest version: what is opened after it is compared with it. */
  takeAsVersion(): Promise<void>;
  /** What the open picture changed since the newest version; null when they show nothing in common. */
  changeSinceBefore(): Promise<Change | null>;
  /** What the open picture says to each "will do", read against this intent; null for other answers. */
  outcomes(intent: Intent, answers: readonly Answer[]): Promise<(Outcome | null)[]>;
  /** Compares two versions; null when they show nothing in common. The newest wish wins, others are stopped. */
  compare(
    earlier: VersionFile,
    later: VersionFile,
    progress: (p: Progress) => void,
  ): Promise<SeenComparison | 'stopped' | null>;
  stopComparing(): Promise<void>;
  /** Reads a version that is not open, and makes its small picture. */
  readVersion(
    version: VersionFile,
    intent: Intent,
    answers: readonly Answer[],
  ): Promise<{ readonly facts: PictureFacts; readonly seen: Seen; readonly small: Blob }>;
  /** What a quiet look at the open picture is compared with. */
  lookFacts(intent: Intent): Promise<LookFacts>;
  /** The numbers of lines of `halflight/check@1`, one line a version, put together reading by reading. */
  courses(lines: readonly (string | null)[]): Promise<readonly Course[]>;
}
