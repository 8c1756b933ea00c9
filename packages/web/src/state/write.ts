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

/** Something that can be written. */
export interface Thing {
  /** File name. */
  readonly name: string;
  readonly make: () => Promise<Written | null>;
  /** The same for the clipboard, which takes 8-bit PNG. */
  readonly makeForClipboard?: () => Promise<Written | null>;
}

/** The edited picture at full size. */
export function editedPicture(recipe: Recipe, writing: Writing, name: string): Thing {
  const forClipboard: Writing = { ...writing, format: 'png', depth: 8, space: 'srgb' };
  return {
    name,
    make: () => pictures.desk.write(recipe, writing, proxy(tell)),
    makeForClipboard: () => pictures.desk.write(recipe, forClipboard, proxy(tell)),
  };
}

/** The guide layer of these places. */
export function guideLayer(places: readonly Place[], name: string): Thing {
  const make = (): Promise<Written> => pictures.desk.guide(places);
  return { name, make, makeForClipboard: make };
}

/** The edit itself, as the command line reads it; read again as that does. */
export function recipeFile(recipe: Recipe, name: string): Thing {
  const text = `${JSON.stringify(recipe, null, 2)}\n`;
  return {
    name,
    async make() {
      const { holdRecipe } = await import('@halflight/files/handover');
      holdRecipe(text, recipe, name);
      return { blob: new Blob([text], { type: 'application/json' }), name, readBack: true };
    },
  };
}

/** Shows how far the writing is. */
export const tell = (running: Progress): void => {
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
    const again = await target.take(written);
    const megabytes = written.blob.size / 1e6;
    const size = megabytes < 0.1 ? 'under 0.1' : megabytes.toFixed(1);
    const checked = [
      ...(written.readBack ? ['it was read back and is as meant'] : []),
      ...(again ? ['saved file checked'] : written.readBack ? ['bytes checked'] : []),
    ]
      .map((words) => `; ${words}`)
      .join('');
    const done = `“${written.name}” was ${target.words}, ${size} MB${checked}.`;
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
  void pictures.desk.stopHandover();
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
  if (name === 'AbortError') return 'It was not shared. Nothing is lost.';
  if (name === 'QuotaExceededError' || name === 'NotFoundError')
    return 'The file could not be written to its place. Choose another place with more room.';
  return message || 'The file could not be written.';
}

/** Saves to a place of the artist's choice where the browser can, else as a download. */
export async function save({ name, make }: Thing): Promise<void> {
  const target = await savePlace(name);
  if (target) await run(target, make);
}

/** Puts it on the clipboard. */
export async function copy({ makeForClipboard }: Thing): Promise<void> {
  if (!makeForClipboard) return;
  let put: (blob: Blob) => void = () => undefined;
  let fail: (error: Error) => void = () => undefined;
  const promised = new Promise<Blob>((resolve, reject) => {
    put = resolve;
    fail = reject;
  });
  // The promise is given at once, while the press still counts; the picture follows.
  const copied = navigator.clipboard.write([new ClipboardItem({ 'image/png': promised })]);
  copied.catch(() => undefined);
  const target: Target = {
    words: 'copied as 8-bit PNG',
    async take({ blob }) {
      put(blob);
      await copied;
      return false;
    },
  };
  await run(target, makeForClipboard);
  fail(new Error('stopped'));
}

/** Whether files can be handed to other programs here. */
export function canShare(): boolean {
  return navigator.canShare?.({ files: [new File([], 'x.png', { type: 'image/png' })] }) ?? false;
}

/** What was made for sharing when the browser no longer counted the press: the next one hands it over. */
let ready: { readonly of: string; readonly written: Written } | null = null;

/** Hands it to another program. `of` names what is shared, so that a second press need not make it again. */
export async function share({ make }: Thing, of: string): Promise<void> {
  let shared: Written | null = null;
  const target: Target = {
    words: 'shared',
    async take({ blob, name }) {
      try {
        await navigator.share({ files: [new File([blob], name, { type: blob.type })] });
        ready = null;
        return false;
      } catch (error) {
        if ((error as Error).name !== 'NotAllowedError' || shared === null) throw error;
        ready = { of, written: shared };
        throw new Error(
          'The picture is ready, but making it took longer than the browser waits. Press share again.',
        );
      }
    },
  };
  const made = ready?.of === of ? ready.written : null;
  await run(target, async () => {
    shared = made ?? (await make());
    return shared;
  });
}
