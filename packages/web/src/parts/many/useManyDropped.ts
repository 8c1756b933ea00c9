import { useEffect } from 'react';

/** While a screen of many pictures is shown, what is dropped anywhere belongs to it, folders with all that is in them. */
export function useManyDropped(take: (files: File[]) => unknown): void {
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
      void filesOf(entries).then(take);
    };
    window.addEventListener('drop', onDrop, { capture: true });
    return () => window.removeEventListener('drop', onDrop, { capture: true });
  }, [take]);
}

/** Files and the files in folders, at any depth. */
async function filesOf(
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
