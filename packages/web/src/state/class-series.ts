import type { Intent, Recipe } from '@halflight/engine';
import { proxy } from 'comlink';
import { create } from 'zustand';
import { Stopped } from '../picture/client.ts';
import type { BroughtIn, EditOnWork, PlaceInSet } from '../workers/class/desk.ts';
import type { ClassWork } from './class-document.ts';
import { fileOf } from './class-files.ts';
import { isRead } from './class-reading.ts';
import { classWorker, presentClass, useClass } from './class-store.ts';
import { savePlace } from './save.ts';
import { say, trouble } from './session.ts';

/** What one edit does to a work of the set: its check, or why it could not be made. */
export type Tried = { readonly work: ClassWork } & (
  | { readonly edit: EditOnWork; readonly address: string }
  | { readonly trouble: string }
);

interface SeriesState {
  readonly running: { readonly doing: string; readonly done: number; readonly all: number } | null;
  /** The edit that was tried on the set. */
  readonly recipe: Recipe | null;
  readonly tried: readonly Tried[];
  /** Works that are left out when the edited pictures are written. */
  readonly leftOut: ReadonlySet<string>;
  /** What brings a work into the set, by the work. */
  readonly brought: Readonly<Record<string, BroughtIn & { readonly address: string | null }>>;
}

export const useSeries = create<SeriesState>(() => ({
  running: null,
  recipe: null,
  tried: [],
  leftOut: new Set(),
  brought: {},
}));
const get = useSeries.getState;
const set = useSeries.setState;

/** Makes one edit on every work, small, and reads each again: nothing is written. */
export async function tryOnSet(recipe: Recipe): Promise<void> {
  if (get().running) return;
  forget();
  const { works, intent } = presentClass();
  const { readings } = useClass.getState();
  const all = works.filter(({ id }) => isRead(readings[id]));
  set({ recipe });
  await during('Trying the edit', all.length, async (tell) => {
    for (const [index, work] of all.entries()) {
      tell(index);
      const tried = await tryOne(work, recipe, intent);
      set({
        tried: [...get().tried, tried],
        // What brings new notes is looked at before it is written.
        ...('edit' in tried &&
          tried.edit.brings.length > 0 && { leftOut: new Set([...get().leftOut, work.id]) }),
      });
    }
  });
}

async function tryOne(work: ClassWork, recipe: Recipe, intent: Intent): Promise<Tried> {
  try {
    const file = await fileOf(work);
    const edit = await classWorker.run((desk) => desk.tryEdit(file, recipe, intent));
    return { work, edit, address: URL.createObjectURL(edit.picture) };
  } catch (error) {
    if (error instanceof Stopped) throw error;
    return { work, trouble: (error as Error).message };
  }
}

export function takeWith(id: string, taken: boolean): void {
  const leftOut = new Set(get().leftOut);
  if (taken) leftOut.delete(id);
  else leftOut.add(id);
  set({ leftOut });
}

/** Writes the edited pictures of the set at full size, each read back, as one ZIP. */
export async function saveEditedSet(): Promise<void> {
  const { recipe, tried, leftOut, running } = get();
  if (!recipe || running) return;
  const name = `${presentClass().title.replace(/[\\/:*?"<>|]+/g, ' ')} edited.zip`;
  const target = await savePlace(name);
  if (!target) return;
  const works = tried.filter((it) => 'edit' in it && !leftOut.has(it.work.id)).map(({ work }) => work);
  await during('Writing the edited pictures', works.length, async (tell) => {
    const files = await Promise.all(works.map(fileOf));
    const made = new Date().toISOString();
    const blob = await classWorker.run((desk) => desk.packEdited(files, recipe, made, proxy(tell)));
    await target.take({ blob, name });
    say(`“${name}” was ${target.words}; every picture was read back.`);
  });
}

/** Looks for the smallest edit that brings one work in. */
export async function bringIn(work: ClassWork, place: PlaceInSet): Promise<void> {
  await during(`Looking how ${work.who} comes in`, 1, async () => {
    const file = await fileOf(work);
    const { intent } = presentClass();
    const found = await classWorker.run((desk) =>
      desk.bringIn(
        file,
        intent,
        place,
        proxy(() => undefined),
      ),
    );
    const address = found.edit ? URL.createObjectURL(found.edit.after) : null;
    set({ brought: { ...get().brought, [work.id]: { ...found, address } } });
  });
}

export function stopSeries(): void {
  classWorker.stop();
}

async function during(doing: string, all: number, job: (tell: (done: number) => void) => Promise<void>) {
  if (get().running) return;
  set({ running: { doing, done: 0, all } });
  try {
    await job((done) => get().running && set({ running: { doing, done, all } }));
  } catch (error) {
    if (!(error instanceof Stopped)) trouble('reading', `${doing} stopped: ${(error as Error).message}`);
  } finally {
    set({ running: null });
  }
}

function forget(): void {
  for (const it of get().tried) if ('address' in it) URL.revokeObjectURL(it.address);
  set({ tried: [], leftOut: new Set(), recipe: null });
}
