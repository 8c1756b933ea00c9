import { proxy } from 'comlink';
import { create } from 'zustand';
import { newWork } from '../document/work.ts';
import { Stopped } from '../picture/client.ts';
import type { PageFile, PagesRequest } from '../workers/class/request.ts';
import type { ClassWork } from './class-document.ts';
import { classPicture, fileOf } from './class-files.ts';
import { isRead } from './class-reading.ts';
import { classWorker, presentClass, useClass } from './class-store.ts';
import { savePlace, type Target } from './save.ts';
import { say, trouble } from './session.ts';

/** How far the pages are written. */
export const usePages = create<{ readonly writing: { readonly done: number; readonly all: number } | null }>(
  () => ({ writing: null }),
);

interface FolderWindow {
  showDirectoryPicker?(options: { mode: 'readwrite' }): Promise<FileSystemDirectoryHandle>;
}

/** Whether the browser can write into a folder. */
export const canWriteFolder = (): boolean => (window as FolderWindow).showDirectoryPicker !== undefined;

/** What the screen knows of the class that the store doesn't: what is shared, and where works lie. */
export type PagesWish = Pick<PagesRequest, 'common' | 'plane' | 'pdf'>;

/** Writes the pages as one ZIP; the place is asked for before. */
export async function savePages(wish: PagesWish): Promise<void> {
  const name = `${presentClass().title.replace(/[\\/:*?"<>|]+/g, ' ')} pages.zip`;
  const target = await savePlace(name);
  if (target) await zipTo(target, name, wish);
}

async function zipTo(target: Target, name: string, wish: PagesWish): Promise<void> {
  await during('The pages could not be written', async (tell) => {
    const request = await requestOf(wish);
    const blob = await classWorker.run((desk) => desk.packPages(request, proxy(tell)));
    await target.take({ blob, name });
    say(`“${name}” was ${target.words}.`);
  });
}

/** Writes the pages into a folder, each whole or not at all. */
export async function writePagesToFolder(wish: PagesWish): Promise<void> {
  const { showDirectoryPicker } = window as FolderWindow;
  const folder = await showDirectoryPicker?.({ mode: 'readwrite' }).catch(() => null);
  if (!folder) return;
  await during('The pages could not be written', async (tell) => {
    const request = await requestOf(wish);
    // The browser writes beside the file and swaps it in at the end.
    const put = async ({ name, bytes }: PageFile): Promise<void> => {
      const stream = await (await folder.getFileHandle(name, { create: true })).createWritable();
      await stream.write(bytes);
      await stream.close();
    };
    await classWorker.run((desk) => desk.writePages(request, proxy(put), proxy(tell)));
    say(`The pages were written into “${folder.name}”.`);
  });
}

export function stopPages(): void {
  classWorker.stop();
}

/** Saves the dossier of one student's work: the picture as handed in, with the intent of the assignment. */
export async function saveStudentDossier(work: ClassWork): Promise<void> {
  const { intent, title } = presentClass();
  const called = work.title || `${work.who}, ${title}`;
  const name = `${called.replace(/[\\/:*?"<>|]+/g, ' ')}.halflight`;
  const target = await savePlace(name);
  const read = useClass.getState().readings[work.id];
  if (!target || !isRead(read)) return;
  try {
    const { file } = await fileOf(work);
    const { width, height, depth, profile, tagged } = read.facts;
    const dossier = newWork(crypto.randomUUID(), called, {
      number: 1,
      name: work.file,
      hash: work.id,
      bytes: work.bytes,
      mediaType: work.mediaType,
      width,
      height,
      depth,
      profile,
      tagged,
      added: new Date().toISOString(),
    });
    const bytes = new Map([[work.id, file]]);
    const blob = await classWorker.run((desk) => desk.dossier({ ...dossier, intent }, bytes));
    await target.take({ blob, name });
    say(`“${name}” was ${target.words}.`);
  } catch (error) {
    if (!(error instanceof Stopped))
      trouble('reading', `The dossier could not be saved: ${(error as Error).message}`);
  }
}

/** Shows how far something is while it runs, and says what went wrong. */
async function during(
  failed: string,
  job: (tell: (done: number, all: number) => void) => Promise<void>,
): Promise<void> {
  if (usePages.getState().writing) return;
  usePages.setState({ writing: { done: 0, all: 1 } });
  try {
    await job((done, all) => {
      if (usePages.getState().writing) usePages.setState({ writing: { done, all } });
    });
  } catch (error) {
    if (!(error instanceof Stopped)) trouble('reading', `${failed}: ${(error as Error).message}`);
  } finally {
    usePages.setState({ writing: null });
  }
}

async function requestOf(wish: PagesWish): Promise<PagesRequest> {
  const now = presentClass();
  const { readings } = useClass.getState();
  const works: PagesRequest['works'][number][] = [];
  for (const work of now.works) {
    const read = readings[work.id];
    if (!isRead(read)) continue;
    const [page, small] = [await classPicture('page', work.id), await classPicture('small', work.id)];
    if (page === null || small === null)
      throw new Error(
        `The picture of ${work.file} is no longer in this browser’s store. Add its file again.`,
      );
    const { proposal } = now.critiques[work.id] ?? {};
    const after = proposal ? await classPicture('after', proposal.picture) : null;
    works.push({ work, read, page, small, after });
  }
  const unread = now.works.flatMap(({ id }) => {
    const reading = readings[id];
    return reading && !isRead(reading) ? [reading.trouble] : [];
  });
  return { ...wish, now, works, unread, made: new Date().toISOString() };
}
