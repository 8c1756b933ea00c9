import { useEffect } from 'react';
import { redoClass, takeIntoClass, undoClass } from '../../state/class.ts';

/** On the class's screen files that are dropped belong to the class, and undo is the class's. */
export function useClassHands(): void {
  useEffect(() => {
    const onDrop = (event: DragEvent): void => {
      const { dataTransfer } = event;
      if (!dataTransfer?.types.includes('Files')) return;
      event.preventDefault();
      event.stopImmediatePropagation();
      delete document.documentElement.dataset.dropping;
      // Entries must be taken while the event lasts.
      const entries = [...dataTransfer.items].map((item) => ({
        entry: item.webkitGetAsEntry?.() ?? null,
        file: item.getAsFile(),
      }));
      void filesOf(entries).then(takeIntoClass);
    };
    const onKey = (event: KeyboardEvent): void => {
      if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
      const target = event.target as HTMLElement;
      const key = event.key.toLowerCase();
      const chooser = document.querySelector<HTMLElement>('[data-choose-works]');
      if (key === 'o' && chooser) chooser.click();
      else if (target.closest('input, textarea')) return;
      else if (key === 'y' || (key === 'z' && event.shiftKey)) redoClass();
      else if (key === 'z') undoClass();
      else return;
      event.preventDefault();
      event.stopImmediatePropagation();
    };
    const options = { capture: true };
    window.addEventListener('drop', onDrop, options);
    window.addEventListener('keydown', onKey, options);
    return () => {
      window.removeEventListener('drop', onDrop, options);
      window.removeEventListener('keydown', onKey, options);
    };
  }, []);
}

/** Files and the files in folders, at any depth. */
export async function filesOf(
  all: readonly { entry: FileSystemEntry | null; file: File | null }[],
): Promise<File[]> {
  const found: File[] = [];
  const walk = async (entry: FileSystemEntry): Promise<void> => {
    if (entry.isFile) {
      const file = await new Promise<File | null>((resolve) =>
        (entry as FileSystemFileEntry).file(resolve, () => resolve(null)),
      );
      if (file) found.push(file);
      return;
    }
    const reader = (entry as FileSystemDirectoryEntry).createReader();
    for (;;) {
      // A directory gives its entries in portions until there are none.
      const portion = await new Promise<FileSystemEntry[]>((resolve) =>
        reader.readEntries(resolve, () => resolve([])),
      );
      if (portion.length === 0) return;
      for (const inside of portion) await walk(inside);
    }
  };
  for (const { entry, file } of all) {
    if (entry) await walk(entry);
    else if (file) found.push(file);
  }
  return found;
}
