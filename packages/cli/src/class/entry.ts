/** A picture that is written for the pages: JPEG, sRGB. */
export interface EntryPicture {
  readonly width: number;
  readonly height: number;
}

/** What is kept of one work: everything that its line, its pages and the pages of the class are made from. */
export interface Entry {
  readonly name: string;
  /** Of name and content together; its pictures are kept under it. */
  readonly id: string;
  /** SHA-256 of the file's bytes; empty when they could not be read. */
  readonly sha256: string;
  /** When the file was last changed, ISO 8601. */
  readonly modified: string;
  /** The line of `check --json`. */
  readonly line: string;
  /** What was wrong, when it could not be read. */
  readonly trouble?: string;
  /** What the readings find strong, a sentence each. */
  readonly strong: readonly string[];
  /** Sentences on the file: assumed colours, what was cut out and straightened. */
  readonly notes: readonly string[];
  /** Absent when it could not be read. */
  readonly page?: EntryPicture;
  readonly small?: EntryPicture;
  readonly dossier: boolean;
}

/** What a run is: works are only taken over from one with the same settings. */
export interface RunHead {
  readonly schema: 'halflight/class-journal@1';
  /** Hash of all that the readings depend on beside the pictures. */
  readonly settings: string;
  readonly title: string;
  /** What the assignment asked for, one sentence; empty when it was not told. */
  readonly assignment: string;
  /** "2/8", or null for a whole class. */
  readonly part: string | null;
  /** True when every work of the run is in the journal. */
  readonly complete: boolean;
}

/** Names of what is kept of a work inside a journal: names of files may be too long for the disk. */
export const pageFile = (id: string): string => `${id}.page.jpg`;
export const smallFile = (id: string): string => `${id}.small.jpg`;
export const dossierFile = (id: string): string => `${id}.halflight`;
