import type { Outcome, Pose } from '@halflight/engine';
import { create } from 'zustand';
import { parseRoute, type Route } from '../app/route.ts';
import type { History } from '../document/history.ts';
import type { Version, Work } from '../document/work.ts';
import type { OpenedPicture, PlaceReading, Progress, Seen } from '../picture/desk.ts';
import type { KeepingState, ShelfEntry } from '../storage/keeper.ts';

/** A picture that our own generator painted, offered for a first try. */
export interface DemoPicture {
  readonly file: string;
  readonly title: string;
  readonly version: number;
}

/** Something went wrong; said in a sentence at the place where it happened. */
export interface Trouble {
  readonly at: 'opening' | 'keeping' | 'reading' | 'shelf' | 'writing';
  readonly text: string;
}

/** What is being opened. */
export interface Opening {
  readonly name: string;
  readonly progress: Progress;
  /** "2 of 7" when several come at once. */
  readonly count?: string;
}

/** A picture that hangs on the wall without being kept: a paste, or what a full store did not take. */
export interface ShownGlance {
  /** As it stands in the work. */
  readonly id: string;
  readonly file: Blob;
  /** False when it is a save that the full store did not take. */
  readonly pasted: boolean;
  /** The version that it becomes when it is kept. */
  readonly version: Omit<Version, 'number'>;
  readonly pose: Pose | null;
  readonly outcomes: readonly (Outcome | null)[];
  /** The work as it lies on the paste. */
  readonly work: Work;
}

/** All that the screens show, as one immutable state. */
export interface Session {
  readonly route: Route;
  /** Null until the store has answered. */
  readonly shelf: readonly ShelfEntry[] | null;
  readonly keeping: KeepingState | null;
  readonly demo: readonly DemoPicture[];
  /** The work that is open, with its undo list. */
  readonly history: History | null;
  /** False while another tab writes this work, and while a paste that is not kept hangs on the wall. */
  readonly writable: boolean;
  readonly glance: ShownGlance | null;
  readonly picture: OpenedPicture | null;
  readonly seen: Seen | null;
  readonly opening: Opening | null;
  /** The dossier or shelf that is being written, with the share that is done. */
  readonly packing: { readonly name: string; readonly share: number } | null;
  readonly troubles: readonly Trouble[];
  /** Name of the note that stands open; only one does. */
  readonly openNote: string | null;
  /** Name of the note that is pointed at, on the page or on the picture. */
  readonly pointedNote: string | null;
  readonly place: PlaceReading | null;
  /** The last work taken off the shelf, which can still come back. */
  readonly removed: ShelfEntry | null;
  /** A short sentence read out to those who can't see the change. */
  readonly said: string;
}

export const useSession = create<Session>(() => ({
  route: parseRoute(location.hash),
  shelf: null,
  keeping: null,
  demo: [],
  history: null,
  writable: true,
  glance: null,
  picture: null,
  seen: null,
  opening: null,
  packing: null,
  troubles: [],
  openNote: null,
  pointedNote: null,
  place: null,
  removed: null,
  said: '',
}));

export const get = useSession.getState;
export const set = useSession.setState;

/** The open work as it is shown: as it lies on the paste while one hangs on the wall. */
export function shownWork({ glance, history }: Pick<Session, 'glance' | 'history'>): Work | null {
  return glance?.work ?? history?.present ?? null;
}

export function say(said: string): void {
  set({ said });
}

export function trouble(at: Trouble['at'], text: string): void {
  const others = get().troubles.filter((t) => t.text !== text);
  set({ troubles: [...others, { at, text }], said: text });
}

/** Forgets what went wrong at these places. */
export function clearTroubles(at: readonly Trouble['at'][]): void {
  const { troubles } = get();
  if (troubles.length > 0) set({ troubles: troubles.filter((t) => !at.includes(t.at)) });
}
