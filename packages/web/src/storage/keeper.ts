import type { ProxyMarked } from 'comlink';
import type { Command } from '../document/commands.ts';
import type { Facts } from '../document/facts.ts';
import type { Entry } from '../document/history.ts';
import type { Look, Work, WorkState } from '../document/work.ts';
import type { ClassKeeper } from './class.ts';

/** One line of the shelf, kept in the index so that the shelf needs no document. */
export interface ShelfEntry {
  readonly id: string;
  readonly title: string;
  readonly state: WorkState;
  readonly version: number;
  readonly created: string;
  /** When it was last worked on, ISO 8601. */
  readonly touched: string;
  /** The finding that stands first between the work and done; null when none does, undefined when unread. */
  readonly topFinding?: string | null;
  readonly openNotes?: number;
  /** The last quiet look that was written down. */
  readonly lastLook?: Pick<Look, 'at' | 'version'> | null;
  /** Small picture; absent when it could not be made. */
  readonly thumb?: Blob;
  /** Bytes of pictures that this work needs. */
  readonly hashes: readonly string[];
  /** Taken off the shelf; gone for good at the next start, or when the store needs its room. */
  readonly removed?: boolean;
}

/** Whether and how works last. */
export interface KeepingState {
  /** False when works live only as long as this page. */
  readonly lasting: boolean;
  /** True when the browser promises not to clear them. */
  readonly promised: boolean;
  /** True when there is room for a few more pictures only. */
  readonly tight: boolean;
  /** Bytes used and allowed, where the browser tells. */
  readonly used: number | null;
  readonly allowed: number | null;
}

/** A work as it comes back from storage. */
export interface KeptWork {
  readonly base: Work;
  readonly done: readonly Command[];
  readonly undone: readonly Command[];
  /** False when another tab writes this work. */
  readonly writable: boolean;
}

/** A file that was made for the artist to save. */
export interface Packed {
  readonly file: Blob;
  readonly name: string;
  /** Pictures that the store had lost, which are not in it. */
  readonly missing: number;
}

/** What came out of a dossier or a whole shelf. */
export interface BroughtIn {
  /** Works that are new on the shelf. */
  readonly works: readonly { readonly id: string; readonly title: string }[];
  /** Works that stood there already, the same in everything. */
  readonly there: readonly { readonly id: string; readonly title: string }[];
  /** Sentences about what could not be brought in. */
  readonly troubles: readonly string[];
}

/** What one tab tells the others, over the channel of `CHANNEL`. */
export type News =
  /** A work was written: who reads it follows, and the shelf has changed. */
  | { readonly kind: 'written'; readonly id: string }
  /** The shelf has changed. */
  | { readonly kind: 'shelf' }
  /** Nobody writes this work any more. */
  | { readonly kind: 'free'; readonly id: string };

export const CHANNEL = 'halflight';

/** Calls of the storage worker. It alone touches the store. Every promise resolves when it is on disk. */
export interface Keeper {
  state(): Promise<KeepingState>;
  shelf(): Promise<ShelfEntry[]>;
  /** SHA-256 of a file's bytes, in hexadecimal. */
  hashOf(file: Blob): Promise<string>;
  /** Keeps a picture's bytes, unless they are already there. */
  keepPicture(hash: string, file: Blob): Promise<void>;
  /** Keeps a new work with the bytes of its picture. */
  create(work: Work, picture: Blob, thumb: Blob | null): Promise<void>;
  open(id: string): Promise<KeptWork | null>;
  /** Lets another tab write the work that was open. */
  close(): Promise<void>;
  write(entry: Entry): Promise<void>;
  /** Keeps what became known of a version of the open work. */
  learn(hash: string, facts: Facts): Promise<void>;
  picture(hash: string, mediaType: string): Promise<Blob | null>;
  /** Keeps any bytes and gives their hash. */
  keep(bytes: Blob): Promise<string>;
  /** The work as it stands in the store, for a tab that only reads it. */
  look(id: string): Promise<Omit<KeptWork, 'writable'> | null>;
  /** A work as one file. The file stands in the store until the next one is made. */
  dossier(id: string, onProgress?: (share: number) => void): Promise<Packed | null>;
  /** All works as one file. */
  wholeShelf(onProgress?: (done: number, all: number) => void): Promise<Packed | null>;
  /** Puts the works of a dossier, or of a whole shelf, onto the shelf. */
  bringIn(file: Blob, name: string): Promise<BroughtIn>;
  /** Takes a work off the shelf; false when it can't be put back, since the full store needed its room at once. */
  takeOff(id: string): Promise<boolean>;
  /** Changes a line of the shelf. */
  mark(id: string, change: Partial<Omit<ShelfEntry, 'id'>>): Promise<void>;
  /** The store of the class. */
  ofClass(): Promise<ClassKeeper & ProxyMarked>;
}
