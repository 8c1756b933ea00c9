import type { Finding, PictureFacts } from '@halflight/engine';

/** What is kept of a work that was read: plain data. */
export interface ReadWork {
  /** The intent it was read against, as JSON. */
  readonly intent: string;
  /** The line of `check --json`. */
  readonly line: string;
  readonly facts: PictureFacts;
  /** Sentences about what could not be read as it stands in the file, and about what was straightened. */
  readonly remarks: readonly string[];
  /** Every number of every reading that can tell, by "reading.measure"; null where it has no meaning. */
  readonly values: Readonly<Record<string, number | null>>;
  /** With their places. */
  readonly findings: readonly Finding[];
  /** What is as it should be, a sentence each. */
  readonly fine: readonly string[];
  /** Size of the picture that is shown and printed. */
  readonly width: number;
  readonly height: number;
}

/** A work that could not be read, and why. */
export interface UnreadWork {
  readonly trouble: string;
}

export type KeptReading = ReadWork | UnreadWork;

export function isRead(reading: KeptReading | undefined): reading is ReadWork {
  return reading !== undefined && !('trouble' in reading);
}
