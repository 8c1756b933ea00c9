import type { FlattenStage, StageName, Thinning } from '@halflight/engine';
import { proxy } from 'comlink';
import { create } from 'zustand';
import {
  type Choice,
  type Choices,
  choiceWords,
  differenceWords,
  layerHistory,
  NO_CHOICES,
  readKept,
} from '../document/layers.ts';
import { currentVersion, isLayered } from '../document/work.ts';
import { Stopped } from '../picture/client.ts';
import type { OpenedPicture, Progress } from '../picture/desk.ts';
import type {
  Difference,
  GivenPicture,
  LayerSource,
  ListedPicture,
  MergeLook,
  SeenLayers,
} from '../workers/layers/desk.ts';
import { keeper, pictures } from './desks.ts';
import { refreshReadings } from './readings.ts';
import { clearTroubles, say, get as session, trouble } from './session.ts';
import { startLayersClient } from './thinout-client.ts';
import { type Thing, tell } from './write.ts';

/** Pictures given one by one, as they are being arranged. */
export interface Arrangement {
  /** Lowest first. */
  readonly pictures: readonly GivenPicture[];
  /** The name of the one that shows all of them together. */
  readonly flat: string | null;
  /** Two flat pictures: they are the same with and without one layer, and not layers themselves. */
  readonly pair: boolean;
}

type History = ReturnType<typeof layerHistory.begin>;

/** The layers that are looked at, and what was decided about them. */
interface ThinoutState {
  /** The hash of the version whose layers these are, a name of its own for those of no work; null without layers. */
  readonly of: string | null;
  /** The work on whose screen they were opened. */
  readonly work: string | null;
  readonly source: LayerSource | null;
  readonly arrangement: Arrangement | null;
  readonly list: ListedPicture | null;
  /** Paths of the layers that were read so far. */
  readonly read: ReadonlySet<string>;
  /** All layers put together, as it was read. */
  readonly picture: OpenedPicture | null;
  readonly seen: SeenLayers | null;
  /** What was decided when they were weighed. */
  readonly weighedAs: Choices;
  /** What runs: reading, weighing. */
  readonly running: { readonly what: string; readonly progress: Progress } | null;
  /** It was stopped before it was done. */
  readonly stopped: boolean;
  readonly history: History;
  /** Paths that are shown or hidden only for a look. */
  readonly turned: readonly string[];
  /** The layers as they are looked at; null while they are as in the file. */
  readonly shown: ImageBitmap | null;
  readonly looking: boolean;
  /** How the pictures together differ from the flat one. */
  readonly difference: Difference | null;
  /** Neighbours made one, for a look. */
  readonly merge: ({ readonly paths: readonly string[] } & MergeLook) | null;
  /** Neighbours that are being made one. */
  readonly merging: readonly string[] | null;
  /** From keeping all to one layer; null while it is not known. */
  readonly plan: readonly FlattenStage[] | null;
  /** How far it is to be thinned out. */
  readonly stage: StageName;
  /** Path of the layer that is chosen in the list. */
  readonly chosen: string | null;
}

const EMPTY: ThinoutState = {
  of: null,
  work: null,
  source: null,
  arrangement: null,
  list: null,
  read: new Set(),
  picture: null,
  seen: null,
  weighedAs: NO_CHOICES,
  running: null,
  stopped: false,
  history: layerHistory.begin(NO_CHOICES),
  turned: [],
  shown: null,
  looking: false,
  difference: null,
  merge: null,
  merging: null,
  plan: null,
  // As far as nothing is seen of it and no decision is lost.
  stage: 'runs',
  chosen: null,
};

export const useThinout = create<ThinoutState>(() => EMPTY);
const get = useThinout.getState;
const set = useThinout.setState;

/** False after the worker was ended: what it held must be read again before it can be asked. */
let holds = false;
export const layersClient = startLayersClient(() => {
  holds = false;
});

/** The version whose layers are being fetched from the store. */
let coming: string | null = null;

/** Reads the layers of the open work, unless they are known; its notes count them then. */
export async function weighOpenWork(): Promise<void> {
  const { history, picture } = session();
  if (history === null || picture === null) return;
  const version = currentVersion(history.present);
  if (!isLayered(version) || coming === version.hash) return;
  if (get().of !== version.hash) {
    coming = version.hash;
    const file = await keeper.picture(version.hash, version.mediaType).catch(() => null);
    coming = null;
    if (file === null || session().picture !== picture) return;
    await take({ kind: 'file', name: version.name, file }, version.hash);
  }
  await tellNotes();
}

/** Forgets layers that belong to another work, or to an earlier picture of this one. */
export function leaveOthers(work: string | null, hash: string | null): void {
  const { of, work: theirs } = get();
  if (of === null) return;
  if (of.startsWith(OWN) ? theirs !== work : of !== hash) forget();
}

/** Takes files as layers: one layered file, or pictures. */
export async function takeLayers(
  files: readonly { readonly name: string; readonly file: Blob }[],
  flat: { readonly name: string; readonly file: Blob } | null = null,
): Promise<void> {
  clearTroubles(['opening', 'reading', 'writing']);
  const layered = files.find(({ name }) => /\.ora$/i.test(name));
  if (layered && files.length > 1) {
    trouble(
      'opening',
      `“${layered.name}” is a layered file: open it alone, or PNGs of one size without it. Nothing was opened.`,
    );
    return;
  }
  if (layered) {
    await take({ kind: 'file', ...layered }, ownName());
    return;
  }
  const before = get().arrangement?.pictures ?? [];
  const named = new Set<string>();
  const pictures = [
    ...before,
    ...files.map(
      ({ name, file }): GivenPicture => ({ name, file, mode: 'src-over', opacity: 1, visible: true }),
    ),
  ].map((one) => ({ ...one, name: unlike(one.name, named) }));
  const all =
    flat && !before.length ? [...pictures, { ...GIVEN, ...flat, name: unlike(flat.name, named) }] : pictures;
  const arrangement: Arrangement = {
    pictures: all,
    flat: flat && all.length > 2 ? all[all.length - 1].name : null,
    pair: flat !== null && all.length === 2,
  };
  // One bad file takes none along: what was arranged before stands again.
  const prior = get().arrangement;
  if (await readArrangement(arrangement)) return;
  if (prior === null) forget();
  else await readArrangement(prior);
}

const GIVEN = { mode: 'src-over', opacity: 1, visible: true } as const;

/** Two pictures of one name are told apart. */
function unlike(file: string, named: Set<string>): string {
  const name = file.replace(/\.png$/i, '');
  let told = name;
  for (let k = 2; named.has(told); k++) told = `${name} ${k}`;
  named.add(told);
  return told;
}

let count = 0;
const OWN = 'own ';
const ownName = (): string => OWN + ++count;

/** What an arrangement asks the worker to open; null while there is nothing to open. */
function sourceOf({ pictures, flat, pair }: Arrangement): LayerSource | null {
  if (pair && pictures.length === 2) return { kind: 'pair', without: pictures[0], shown: pictures[1] };
  const layers = pictures.filter(({ name }) => name !== flat);
  if (layers.length === 0) return null;
  return { kind: 'pictures', pictures: layers, flat: pictures.find(({ name }) => name === flat) ?? null };
}

/**
 * Reads what has been arranged. A pair is weighed at once; layers wait until they are in order.
 *
 * @returns false when one of them can't be read
 */
async function readArrangement(arrangement: Arrangement): Promise<boolean> {
  const source = sourceOf(arrangement);
  if (source !== null) return take(source, ownName(), arrangement);
  forget();
  return true;
}

/** Changes the order, a mode, what is hidden, or which picture shows all of them. */
export async function arrange(change: Partial<Arrangement>): Promise<void> {
  const { arrangement, source } = get();
  if (arrangement === null) return;
  const next = { ...arrangement, ...change };
  const wanted = sourceOf(next);
  const same = (a: LayerSource | null): string[] =>
    a?.kind === 'pictures' ? a.pictures.map(({ name }) => name).sort() : [];
  const knows = wanted?.kind === 'pictures' && same(wanted).every((name) => same(source).includes(name));
  if (!knows || !holds) {
    await readArrangement(next);
    return;
  }
  set({ arrangement: next, source: wanted, seen: null, stopped: false });
  try {
    const list = await layersClient.run((desk) => desk.arrange(wanted));
    set({ list });
    await look();
    await compare();
  } catch (error) {
    tellTrouble(error);
  }
}

/**
 * Opens a source and reads its layers; a layered file is weighed as well.
 *
 * @returns false when it can't be read; true also when it was stopped, or another one came meanwhile
 */
async function take(
  source: LayerSource,
  of: string,
  arrangement: Arrangement | null = null,
): Promise<boolean> {
  layersClient.stop();
  forget();
  const history = (arrangement === null && readKept(keptText(of))) || EMPTY.history;
  set({ of, work: session().history?.present.id ?? null, source, arrangement, history });
  const mine = get().source;
  try {
    await readAgain();
    if (get().source !== mine) return true;
    if (source.kind !== 'pictures') await weigh();
    await look();
    await compare();
    return true;
  } catch (error) {
    if (get().source !== mine) return true;
    tellTrouble(error);
    return error instanceof Stopped;
  }
}

/** Lets the worker hold the picture, which it may have lost. */
async function readAgain(): Promise<void> {
  const { source } = get();
  if (source === null) return;
  holds = false;
  set({ read: new Set(), running: { what: 'Reading the layers', progress: STARTING }, stopped: false });
  try {
    const list = await layersClient.run((desk) => desk.open(source));
    if (get().source !== source) return;
    set({ list });
    const all = list ? paths(list.layers).length : 2;
    const each = (path: string): void => {
      if (get().source !== source) return;
      const read = new Set([...get().read, path]);
      const name = path.split('/').at(-1) ?? path;
      const progress = { doing: `“${name}”, ${read.size} of ${all}`, share: read.size / all };
      set({ read, running: { what: 'Reading the layers', progress } });
    };
    const { facts, bitmap, notes } = await layersClient.run((desk) => desk.read(proxy(each)));
    if (get().source !== source) {
      bitmap.close();
      return;
    }
    holds = true;
    get().picture?.bitmap.close();
    set({ picture: { facts, bitmap, thumb: new Blob(), remarks: notes } });
  } finally {
    if (get().source === source) set({ running: null });
  }
}

const STARTING: Progress = { doing: 'Opening the file', share: null };

/** Paths of painted layers, groups apart. */
function paths(list: ListedPicture['layers']): string[] {
  return list.flatMap(({ path, group, children }) => (group ? paths(children) : [path]));
}

/** Weighs what was read. */
export async function weigh(): Promise<void> {
  const { source, running, history, seen: before } = get();
  if (source === null || running) return;
  // What belongs together is found among all layers, before anything was decided.
  const choices = before === null ? NO_CHOICES : history.present;
  try {
    if (!holds) await readAgain();
    const first: Progress = { doing: 'Taking each layer away and looking', share: 0 };
    set({ running: { what: 'Weighing the layers', progress: first }, stopped: false });
    const progress = (p: Progress): void => {
      if (get().source === source && get().running)
        set({ running: { what: 'Weighing the layers', progress: p } });
    };
    const seen = await layersClient.run((desk) => desk.weigh(choices, proxy(progress)));
    if (get().source !== source) return;
    set({ seen, weighedAs: choices });
    say('The layers are weighed.');
    void plan();
  } catch (error) {
    if (get().source === source) tellTrouble(error);
  } finally {
    if (get().source === source) set({ running: null });
  }
}

/** Stops reading or weighing; what is known stays. */
export function stopThinout(): void {
  layersClient.stop();
  set({ running: null, stopped: true });
}

/** Puts the layers away. */
export function forget(): void {
  const { picture, shown, merge } = get();
  picture?.bitmap.close();
  shown?.close();
  merge?.bitmap.close();
  wanted++;
  set(EMPTY);
}

/** The notes of the open work count what its layers are worth. */
async function tellNotes(): Promise<void> {
  const { seen, of } = get();
  const { history } = session();
  if (seen === null || history === null || currentVersion(history.present).hash !== of) return;
  await pictures.desk.takeLayers(seen.reading);
  await refreshReadings();
}

/** Decides something, and looks at the result. */
export function decide(choice: Choice): void {
  travel(layerHistory.step(get().history, { kind: 'do', command: choice }));
}

/** Whether what was decided since the layers were weighed changes what they are worth. */
export function isStale({ weighedAs, history, seen }: ThinoutState): boolean {
  if (seen === null) return false;
  const counts = (path: string): boolean =>
    seen.layers.some((one) => one.path === path && !one.redundant) &&
    seen.reading.layers.some((one) => one.path === path && one.visible);
  const shows = ({ dropped, chosen, settled }: Choices): string => {
    // What shows nothing can go without a change, and so can what is hidden.
    const felt = dropped.filter(counts);
    const other = chosen.map(({ kept }) => kept).filter((kept) => !counts(kept));
    return JSON.stringify([felt.sort(), other.sort(), settled]);
  };
  return shows(weighedAs) !== shows(history.present);
}

export function undoChoice(): void {
  const words = undoChoiceWords(get().history);
  if (words && travel(layerHistory.step(get().history, { kind: 'undo' }))) say(`Undone: ${words}.`);
}

export function redoChoice(): void {
  const words = redoChoiceWords(get().history);
  if (words && travel(layerHistory.step(get().history, { kind: 'redo' }))) say(`Done again: ${words}.`);
}

export function undoChoiceWords({ done }: History): string | null {
  const choice = done.at(-1);
  return choice ? choiceWords(choice) : null;
}

export function redoChoiceWords({ undone }: History): string | null {
  const choice = undone.at(-1);
  return choice ? choiceWords(choice) : null;
}

function travel(history: History): boolean {
  if (history === get().history) return false;
  set({ history, turned: [] });
  const { of, arrangement } = get();
  if (of !== null && arrangement === null) keepText(of, history);
  void look();
  void plan();
  return true;
}

/** Finds the ways to have fewer layers, after what was decided. */
async function plan(): Promise<void> {
  const { source, seen, history } = get();
  if (seen === null || source?.kind === 'pair') return;
  try {
    if (!holds) return;
    const stages = await layersClient.run((desk) => desk.plan(history.present));
    if (stages && get().source === source) set({ plan: stages });
  } catch (error) {
    tellTrouble(error);
  }
}

/** Shows or hides a layer, only to look. */
export function turn(path: string): void {
  const { turned } = get();
  set({ turned: turned.includes(path) ? turned.filter((it) => it !== path) : [...turned, path] });
  void look();
}

/** Counts wishes to look: only the last one is shown. */
let wanted = 0;

/** Puts the layers together as they are decided and turned about. */
export async function look(): Promise<void> {
  const mine = ++wanted;
  const { history, turned, arrangement, source, merge } = get();
  merge?.bitmap.close();
  set({ merge: null });
  const asRead = history.present === history.base && turned.length === 0 && arrangement === null;
  if (asRead || source === null || source.kind === 'pair') {
    get().shown?.close();
    set({ shown: null, looking: false });
    return;
  }
  set({ looking: true });
  // Quick presses are looked at together.
  await new Promise((soon) => setTimeout(soon, 30));
  if (mine !== wanted) return;
  try {
    if (!holds) await readAgain();
    const shown = await layersClient.run((desk) => desk.look({ choices: history.present, turned }));
    if (mine !== wanted) {
      shown.close();
      return;
    }
    get().shown?.close();
    set({ shown });
  } catch (error) {
    tellTrouble(error);
  } finally {
    if (mine === wanted) set({ looking: false });
  }
}

/** Holds pictures against the flat one. */
async function compare(): Promise<void> {
  const { source } = get();
  if (source?.kind !== 'pictures') return;
  const difference = source.flat ? await layersClient.run((desk) => desk.flatDifference()) : null;
  if (get().source === source) set({ difference });
}

/** Shows neighbours as they would be as one layer; again, to go back. */
export async function lookMerged(run: readonly string[]): Promise<void> {
  const { merge, history } = get();
  if (merge && merge.paths.join('\n') === run.join('\n')) {
    merge.bitmap.close();
    set({ merge: null });
    return;
  }
  try {
    set({ merging: run });
    if (!holds) await readAgain();
    const made = await layersClient.run((desk) => desk.lookMerged(run, history.present));
    get().merge?.bitmap.close();
    set({ merge: { paths: run, ...made } });
    say(`As one layer: ${differenceWords(made.difference)}.`);
  } catch (error) {
    tellTrouble(error);
  } finally {
    set({ merging: null });
  }
}

/** The decided layers as a new layered file. */
export function thinned(thinning: Thinning, name: string): Thing {
  return {
    name,
    async make() {
      if (!holds) await readAgain();
      try {
        return await layersClient.run((desk) =>
          desk.write(get().history.present, thinning, name, proxy(tell)),
        );
      } catch (error) {
        if (error instanceof Stopped) return null;
        throw error;
      }
    },
  };
}

/** Stops the writing; nothing of it is kept. */
export function stopWritingLayers(): void {
  layersClient.stop();
}

function tellTrouble(error: unknown): void {
  if (error instanceof Stopped || (error as Error).name === 'AbortError') return;
  trouble('reading', (error as Error).message || 'The layers could not be read.');
}

const KEY = 'halflight.layers.';
/** Files whose choices are kept beside the present one. */
const MOST = 20;

function keptText(of: string): string | null {
  try {
    return localStorage.getItem(KEY + of);
  } catch {
    return null;
  }
}

/** Keeps what was decided about a work's file; those of no work last as long as the page. */
function keepText(of: string, { done, undone }: History): void {
  if (of.startsWith(OWN)) return;
  try {
    localStorage.removeItem(KEY + of);
    const others = Object.keys(localStorage).filter((key) => key.startsWith(KEY));
    for (const key of others.slice(0, Math.max(0, others.length - MOST))) localStorage.removeItem(key);
    localStorage.setItem(KEY + of, JSON.stringify({ done, undone }));
  } catch {
    // A private window may refuse: what was decided then lasts as long as the page.
  }
}
