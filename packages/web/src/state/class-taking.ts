import { namesInFile } from '@halflight/engine';
import { performOnClass } from './class.ts';
import type { ClassWork } from './class-document.ts';
import { keepFile } from './class-files.ts';
import { presentClass, useClass } from './class-store.ts';
import { keeper } from './desks.ts';
import { clearTroubles, say, trouble } from './session.ts';

const get = useClass.getState;
const set = useClass.setState;

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
      full = !(await keepFile(id, file, full));
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

/** Looks whether the app is served with the demo's class. */
export async function findClassDemo(): Promise<void> {
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
