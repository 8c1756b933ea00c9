import { namesInFile, OPEN_INTENT } from '@halflight/engine';
import { proxy } from 'comlink';
import { create } from 'zustand';
import { Stopped } from '../picture/client.ts';
import type { Progress } from '../picture/desk.ts';
import type { ClassKeeper, ClassPicture } from '../storage/class.ts';
import type { ClassMeasure, WorkFile } from '../workers/class/desk.ts';
import { startClassClient } from './class-client.ts';
import {
  type ClassCommand,
  type ClassDocument,
  type ClassHistory,
  type ClassWork,
  type Critique,
  classHistory,
  EMPTY_CLASS,
} from './class-document.ts';
import { isRead, type KeptReading } from './class-reading.ts';
import { keeper } from './desks.ts';
import { keepingSentence } from './keeping.ts';
import { clearTroubles, say, trouble } from './session.ts';

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
const get = useClass.getState;
const set = useClass.setState;

export const classWorker = startClassClient();
let store: Promise<ClassKeeper> | null = null;
/** Files that the full store did not take: they last as long as the page. */
const unkept = new Map<string, Blob>();

function classStore(): Promise<ClassKeeper> {
  store ??= keeper.ofClass() as unknown as Promise<ClassKeeper>;
  return store;
}

/** The class as it stands. */
export function presentClass(): ClassDocument {
  return get().history?.present ?? EMPTY_CLASS;
}

let opening: Promise<void> | null = null;

/** Brings the kept class onto the page, and goes on reading where it was left. */
export function openClass(): Promise<void> {
  opening ??= (async () => {
    void findClassDemo();
    void classWorker.measures().then((measures) => set({ measures }));
    const { kept, readings, writable } = await (await classStore()).open();
    const history = kept
      ? classHistory.rebuild(kept.base, kept.done, kept.undone)
      : classHistory.begin(EMPTY_CLASS);
    set({ history, readings, writable });
  })();
  return opening.then(readOn);
}

/** Does something to the class and keeps it. */
export function performOnClass(command: ClassCommand): void {
  enter({ kind: 'do', command });
  if (command.kind === 'decide' || command.kind === 'add') void readOn();
}

/** Says something about a work. */
export function sayOf(id: string, critique: Critique, words: string): void {
  performOnClass({ kind: 'say', words, id, critique });
}

export function undoClass(): void {
  const words = get().history?.done.at(-1)?.words;
  if (words && enter({ kind: 'undo' })) say(`Undone: ${words}.`);
  void readOn();
}

export function redoClass(): void {
  const words = get().history?.undone.at(-1)?.words;
  if (words && enter({ kind: 'redo' })) say(`Done again: ${words}.`);
  void readOn();
}

function enter(entry: Parameters<typeof classHistory.step>[1]): boolean {
  const { history, writable } = get();
  if (history === null || !writable) return false;
  const next = classHistory.step(history, entry);
  if (next === history) return false;
  set({ history: next });
  void classStore()
    .then(({ write }) => write({ base: next.base, done: next.done, undone: next.undone }))
    .catch((error) => trouble('keeping', keepingSentence(error)));
  return true;
}

/** Files that no person means when they drop a folder. */
const BESIDE = /^(?:\.|thumbs\.db$|desktop\.ini$)/i;

/** Takes files into the class: each is kept first, so that reading can go on after a reload. */
export async function takeIntoClass(files: readonly File[]): Promise<void> {
  const coming = files.filter(({ name, size }) => !BESIDE.test(name) && size >= 0);
  if (coming.length === 0 || get().takingIn) return;
  clearTroubles(['opening', 'keeping']);
  const known = new Set(presentClass().works.map(({ id }) => id));
  const works: ClassWork[] = [];
  let twice = 0;
  let full = false;
  set({ takingIn: { done: 0, all: coming.length } });
  try {
    for (const [index, file] of coming.entries()) {
      set({ takingIn: { done: index, all: coming.length } });
      const id = await keeper.hashOf(file).catch(() => null);
      if (id === null) {
        trouble(
          'opening',
          `“${file.name}” could not be read from its folder. Copy it again and add it once more.`,
        );
        continue;
      }
      if (known.has(id)) {
        twice++;
        continue;
      }
      known.add(id);
      const kept: boolean = full ? false : await keepFile(id, file);
      full ||= !kept;
      if (!kept) unkept.set(id, file);
      works.push({ id, file: file.name, bytes: file.size, mediaType: file.type, ...namesInFile(file.name) });
    }
  } finally {
    set({ takingIn: null });
  }
  if (full)
    trouble(
      'keeping',
      'The browser’s store is full: the last works are read now, but they end with this page. Take works off the shelf, or split the class.',
    );
  if (twice > 0)
    say(twice === 1 ? 'One file was in the class already.' : `${twice} files were in the class already.`);
  if (works.length > 0)
    performOnClass({
      kind: 'add',
      words: works.length === 1 ? 'adding a work' : `adding ${works.length} works`,
      works,
    });
}

async function keepFile(id: string, file: Blob): Promise<boolean> {
  try {
    await (await classStore()).keepFile(id, file);
    return true;
  } catch {
    return false;
  }
}

/** A work's file, to be read again. */
export async function fileOf({ id, file: name, mediaType }: ClassWork): Promise<WorkFile> {
  const file = unkept.get(id) ?? (await (await classStore()).file(id, mediaType));
  if (!file) throw new Error(`“${name}” is no longer in this browser’s store. Add its file again.`);
  return { id, file, name };
}

/** Works that are not read, or were read against another intent. */
function waiting(): ClassWork[] {
  const { readings } = get();
  const { works, intent } = presentClass();
  const key = JSON.stringify(intent);
  return works.filter(({ id }) => {
    const reading = readings[id];
    return reading === undefined || (isRead(reading) && reading.intent !== key);
  });
}

let running = false;

/** Reads what waits, one after the other, until all is read or it is paused. */
export async function readOn(): Promise<void> {
  if (running || !get().writable) return;
  running = true;
  const began = performance.now();
  let read = 0;
  let bytes = 0;
  try {
    for (;;) {
      const [work, ...rest] = waiting();
      if (!work || get().paused) break;
      const all = presentClass().works.length;
      const each = bytes > 0 ? (performance.now() - began) / 1000 / bytes : null;
      const left = each && each * [work, ...rest].reduce((sum, it) => sum + it.bytes, 0);
      const on = { name: work.file, done: all - rest.length - 1, all, left };
      set({ reading: { ...on, progress: { doing: 'Reading the file', share: null } } });
      await readOne(work, (progress) => {
        if (get().reading) set({ reading: { ...on, progress } });
      });
      read++;
      bytes += work.bytes;
    }
  } catch (error) {
    if (!(error instanceof Stopped)) trouble('reading', (error as Error).message);
    set({ paused: true });
  } finally {
    running = false;
    set({ reading: null });
  }
  if (read > 0 && waiting().length === 0) say('Every work of the class is read.');
}

async function readOne(work: ClassWork, tell: (progress: Progress) => void): Promise<void> {
  const { intent } = presentClass();
  const keep = await classStore();
  let reading: KeptReading;
  try {
    const file = await fileOf(work);
    const { read, small, page } = await classWorker.run((desk) => desk.read(file, intent, proxy(tell)));
    reading = { ...read, intent: JSON.stringify(intent) };
    await keepPicture(keep, 'small', work.id, small);
    await keepPicture(keep, 'page', work.id, page);
  } catch (error) {
    if (error instanceof Stopped) throw error;
    const { message } = error as Error;
    reading = { trouble: message.includes(work.file) ? message : `“${work.file}”: ${message}` };
  }
  await keep.keepReading(work.id, reading).catch((error) => trouble('keeping', keepingSentence(error)));
  set({ readings: { ...get().readings, [work.id]: reading } });
}

/** Finishes the work that is being read, then waits. */
export function pauseReading(): void {
  set({ paused: true });
  say('Reading pauses after this work.');
}

export function goOnReading(): void {
  set({ paused: false });
  void readOn();
}

const addresses = new Map<string, string>();
const loose = new Map<string, Blob>();

/** Keeps a picture of a work; where the store is full it lasts as long as the page. */
export async function keepPicture(
  keep: ClassKeeper,
  kind: ClassPicture,
  name: string,
  picture: Blob,
): Promise<void> {
  await keep.keepPicture(kind, name, picture).catch(() => loose.set(`${kind}/${name}`, picture));
}

export async function keepEdited(name: string, picture: Blob): Promise<void> {
  await keepPicture(await classStore(), 'after', name, picture);
}

/** A kept picture of a work, null when the store has lost it. */
export async function classPicture(kind: ClassPicture, name: string): Promise<Blob | null> {
  return loose.get(`${kind}/${name}`) ?? (await classStore()).picture(kind, name);
}

/** Address of a small picture, kept as long as the page. */
export async function smallAddressOf(id: string): Promise<string | null> {
  const known = addresses.get(id);
  if (known) return known;
  const blob = await classPicture('small', id);
  if (blob === null) return null;
  const address = addresses.get(id) ?? URL.createObjectURL(blob);
  addresses.set(id, address);
  return address;
}

/** Puts the class away for good: files, readings and what was said. */
export async function clearClass(): Promise<void> {
  classWorker.stop();
  await (await classStore()).clear();
  for (const address of addresses.values()) URL.revokeObjectURL(address);
  addresses.clear();
  loose.clear();
  unkept.clear();
  set({ history: classHistory.begin({ ...EMPTY_CLASS, intent: OPEN_INTENT }), readings: {}, paused: false });
  say('The class is put away.');
}

async function findClassDemo(): Promise<void> {
  try {
    const response = await fetch('./demo/class/index.json');
    const list = response.ok ? ((await response.json()) as readonly { file: string }[]) : [];
    set({ demo: list.map(({ file }) => file).filter((file) => /^[^/\\]+$/.test(file)) });
  } catch {
    set({ demo: [] });
  }
}

/** The class of twelve that was painted for a first try. */
export async function takeDemoClass(): Promise<void> {
  try {
    const files = await Promise.all(
      get().demo.map(async (name) => {
        const response = await fetch(`./demo/class/${encodeURIComponent(name)}`);
        if (!response.ok) throw new Error();
        const blob = await response.blob();
        return new File([blob], name, { type: blob.type });
      }),
    );
    await takeIntoClass(files);
  } catch {
    trouble(
      'opening',
      'The demo’s class could not be fetched. It is there where the app is served with its demo.',
    );
  }
}
