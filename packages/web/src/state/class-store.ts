import { create } from 'zustand';
import type { Progress } from '../picture/desk.ts';
import type { ClassKeeper } from '../storage/class.ts';
import type { ClassMeasure } from '../workers/class/desk.ts';
import { startClassClient } from './class-client.ts';
import { type ClassDocument, type ClassHistory, EMPTY_CLASS } from './class-document.ts';
import type { KeptReading } from './class-reading.ts';
import { keeper } from './desks.ts';

/** How far the reading of the class is. */
export interface ReadingOn {
  readonly name: string;
  readonly done: number;
  readonly all: number;
  /** Seconds that are left, as far as those read so far tell; null before that. */
  readonly left: number | null;
  readonly progress: Progress;
}

interface ClassState {
  /** Null until the store has answered. */
  readonly history: ClassHistory | null;
  /** False while another tab has the class open. */
  readonly writable: boolean;
  readonly readings: Readonly<Record<string, KeptReading>>;
  readonly measures: readonly ClassMeasure[];
  /** How many of the files that came are kept. */
  readonly takingIn: { readonly done: number; readonly all: number } | null;
  readonly reading: ReadingOn | null;
  readonly paused: boolean;
  /** Names of the files of the demo's class; empty where it is not served. */
  readonly demo: readonly string[];
}

export const useClass = create<ClassState>(() => ({
  history: null,
  writable: true,
  readings: {},
  measures: [],
  takingIn: null,
  reading: null,
  paused: false,
  demo: [],
}));
export const classWorker = startClassClient();
let store: Promise<ClassKeeper> | null = null;
/** The class in the browser's store. */
export function classStore(): Promise<ClassKeeper> {
  store ??= keeper.ofClass() as unknown as Promise<ClassKeeper>;
  return store;
}

/** The class as it stands. */
export function presentClass(): ClassDocument {
  return useClass.getState().history?.present ?? EMPTY_CLASS;
}
