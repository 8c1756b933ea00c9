import type { PagePicture } from './picture.ts';

/** How names stand on the pages of a class. */
export type NamesShown = 'shown' | 'initials' | 'hidden';

/** A page for a whole class: what is common to the works, and every work once. No ranking, no score. */
export interface ClassOverviewData {
  readonly schema: 'halflight/class-overview@1';
  readonly title: string;
  readonly assignment?: string;
  /** ISO 8601. */
  readonly made: string;
  readonly names: NamesShown;
  /** In the order in which they shall stand. */
  readonly works: readonly OverviewWork[];
  /** What several works share, the most shared first. */
  readonly common: readonly OverviewGroup[];
  /** Where the works lie on two readings; absent when nothing was chosen. */
  readonly plane?: OverviewPlane;
  /** Files that could not be read, a sentence each. */
  readonly unread: readonly string[];
}

export interface OverviewWork {
  /** Whose work it is; the page shows it as `names` says, and writes nothing else of it anywhere. */
  readonly who: string;
  /** Of the work; left out where names are hidden, because file names often name people. */
  readonly title?: string;
  readonly small: PagePicture;
  /** What the readings find strong, one sentence. */
  readonly strong?: string;
  /** The first thing to do, one sentence. */
  readonly first?: string;
  /** Address of the work's own page, relative to this one. */
  readonly page?: string;
}

export interface OverviewGroup {
  /** One sentence, e.g. "The shade only gets darker." */
  readonly text: string;
  readonly todo?: string;
  /** Places of its works in `works`. */
  readonly works: readonly number[];
}

export interface OverviewPlane {
  readonly across: OverviewAxis;
  readonly up: OverviewAxis;
}

/** One reading of all works. */
export interface OverviewAxis {
  readonly label: string;
  /** What the low and the high end mean, e.g. "cool", "warm". */
  readonly ends: readonly [string, string];
  /** A number for every work, in the order of `works`; null where a work has none. */
  readonly values: readonly (number | null)[];
}
