import type { Place, Recipe } from '@halflight/engine';
import { proxy } from 'comlink';
import { create } from 'zustand';
import type { Progress } from '../picture/desk.ts';
import type { Writing, Written } from '../picture/edit-desk.ts';
import { pictures } from './desks.ts';
import { openWork } from './open.ts';
import { savePlace, type Target } from './save.ts';
import { get, say, trouble } from './session.ts';

/** How the edited picture goes out, and what is being written. */
interface WriteState {
  /** What was chosen; what is missing is as the picture is. */
  readonly chosen: Partial<Omit<Writing, 'space'>>;
  readonly running: Progress | null;
  /** What was written last, in a sentence. */
  readonly done: string | null;
}

export const useWrite = create<WriteState>(() => ({ chosen: {}, running: null, done: null }));

/** The worker is deaf while a file is packed: after so long it is ended, and the picture opened again. */
const PATIENCE = 1500;

let giveUp: (() => void) | null = null;

/** Writes the edited picture and hands it to its target. */
async function writeTo(recipe: Recipe, writing: Writing, target: Target): Promise<void> {
  await run(target, () => pictures.desk.write(recipe, writing, proxy(tell)));
}

const tell = (running: Progress): void => {
  if (useWrite.getState().running) useWrite.setState({ running });
};

async function run(target: Target, write: () => Promise<Written | null>): Promise<void> {
  if (useWrite.getState().running) return;
  useWrite.setState({ running: { doing: 'Editing the pixels', share: 0 }, done: null });
  const stopped = new Promise<null>((resolve) => {
    giveUp = () => resolve(null);
  });
  try {
    const written = await Promise.race([write(), stopped]);
    if (written === null) {
      say('Nothing was written.');
      return;
    }
    await target.take(written);
    const megabytes = written.blob.size / 1e6;
    const size = megabytes < 0.1 ? 'under 0.1' : megabytes.toFixed(1);
    const done = `“${written.name}” was ${target.words}, ${size} MB; it was read back and is as shown.`;
    useWrite.setState({ done });
    say(done);
  } catch (error) {
    trouble('writing', sentenceOf(error as Error));
  } finally {
    giveUp = null;
    useWrite.setState({ running: null });
  }
}

/** Stops what is being written; nothing of it is kept. */
export function stopWriting(): void {
  void pictures.desk.stopWriting();
  const mine = giveUp;
  const id = get().history?.present.id;
  setTimeout(() => {
    if (mine === null || mine !== giveUp) return;
    mine();
    pictures.stop();
    if (id) void openWork(id);
  }, PATIENCE);
}

function sentenceOf({ message, name }: Error): string {
  if (name === 'QuotaExceededError' || name === 'NotFoundError')
    return 'The file could not be written to its place. Choose another place with more room.';
  return message || 'The file could not be written.';
}

/** Saves the edited picture: to a place of the artist's choice where the browser can, else as a download. */
export async function saveEdited(recipe: Recipe, writing: Writing, name: string): Promise<void> {
  const target = await savePlace(name);
  if (target) await writeTo(recipe, writing, target);
}

/** Saves the guide layer of these places. */
export async function saveGuide(places: readonly Place[], name: string): Promise<void> {
  const target = await savePlace(name);
  if (target) await run(target, () => pictures.desk.guide(places));
}

/** Puts the edited picture on the clipboard: the browser takes 8-bit PNG. */
export async function copyEdited(recipe: Recipe, metadata: boolean): Promise<void> {
  const writing: Writing = { format: 'png', depth: 8, space: 'srgb', metadata };
  let put: (blob: Blob) => void = () => undefined;
  let fail: (error: Error) => void = () => undefined;
  const promised = new Promise<Blob>((resolve, reject) => {
    put = resolve;
    fail = reject;
  });
  // The promise is given at once, while the press still counts; the picture follows.
  const copied = navigator.clipboard.write([new ClipboardItem({ 'image/png': promised })]);
  copied.catch(() => undefined);
  await writeTo(recipe, writing, {
    words: 'copied as 8-bit sRGB',
    async take({ blob }) {
      put(blob);
      await copied;
    },
  });
  fail(new Error('stopped'));
}

/** Whether files can be handed to other programs here. */
export function canShare(): boolean {
  return navigator.canShare?.({ files: [new File([], 'x.png', { type: 'image/png' })] }) ?? false;
}

export async function shareEdited(recipe: Recipe, writing: Writing): Promise<void> {
  await writeTo(recipe, writing, {
    words: 'shared',
    async take({ blob, name }) {
      await navigator.share({ files: [new File([blob], name, { type: blob.type })] });
    },
  });
}
