import { type ComingAs, type Incoming, openIncoming } from '../state/open.ts';
import { trouble } from '../state/session.ts';
import { rememberChosen } from '../state/watch.ts';

/** Pictures from the file chooser or dropped. */
export function chooseFiles(files: readonly File[], as: ComingAs = 'fits'): Promise<void> {
  if (files.length === 0) return Promise.resolve();
  rememberChosen(files[files.length - 1]);
  return openIncoming(
    files.map((file) => ({ file, name: file.name })),
    as,
  );
}

/** The button: reads the clipboard, which the browser may ask about. */
export async function pasteByButton(as: ComingAs = 'fits'): Promise<void> {
  try {
    const items = await navigator.clipboard.read();
    for (const item of items) {
      const type = item.types.find((it) => it.startsWith('image/'));
      if (type) return openIncoming([pasted(await item.getType(type))], as);
    }
    trouble(
      'opening',
      'There is no picture on the clipboard. Copy one in your painting program, then paste again.',
    );
  } catch {
    trouble(
      'opening',
      'The browser did not give the clipboard. Allow it when asked, or press Ctrl V (⌘ V) on this page instead.',
    );
  }
}

/** A paste by the keyboard or by the browser's own menu. False when it carries no picture. */
export function pasteEvent(data: DataTransfer | null): boolean {
  const files = [...(data?.files ?? [])];
  if (files.length === 0) return false;
  // A picture copied from a program has no name of its own; a file copied from a folder keeps its name.
  const incoming = files.map((file) =>
    /^image\.\w+$/.test(file.name) ? pasted(file) : { file, name: file.name },
  );
  void openIncoming(incoming);
  return true;
}

function pasted(file: Blob): Incoming {
  return { file, name: 'Pasted picture', pasted: true };
}

/** Files dropped on the page; folders have none of their own and get a sentence. */
export function dropped(data: DataTransfer | null): void {
  const items = [...(data?.items ?? [])].filter(({ kind }) => kind === 'file');
  const folders = items.filter((item) => item.webkitGetAsEntry?.()?.isDirectory);
  const files = items.filter((item) => !folders.includes(item)).flatMap((item) => item.getAsFile() ?? []);
  if (folders.length > 0) {
    trouble('opening', 'A folder can’t be opened here. Open it and drop the pictures that are in it.');
  }
  void chooseFiles(files);
}
