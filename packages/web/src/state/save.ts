/** A file that was made and goes to where the artist wants it. */
export interface SavedFile {
  readonly blob: Blob;
  readonly name: string;
}

/** Where a written file goes. */
export interface Target {
  /** "saved", to be read after the file's name. */
  readonly words: string;
  take(written: SavedFile): Promise<void>;
}

interface SaveWindow {
  showSaveFilePicker?(options: { suggestedName: string }): Promise<FileSystemFileHandle>;
}

/** Asks where to save before anything is made: the browser only asks right after a press. Null when given up. */
export async function savePlace(name: string): Promise<Target | null> {
  const { showSaveFilePicker } = window as SaveWindow;
  if (!showSaveFilePicker) return { words: 'saved with your downloads', take: async (it) => download(it) };
  try {
    const handle = await showSaveFilePicker({ suggestedName: name });
    return {
      words: 'saved',
      // The browser writes beside the file and swaps it in at the end.
      async take({ blob }) {
        const stream = await handle.createWritable();
        await stream.write(blob);
        await stream.close();
      },
    };
  } catch (error) {
    if ((error as Error).name === 'AbortError') return null;
    return { words: 'saved with your downloads', take: async (it) => download(it) };
  }
}

function download({ blob, name }: SavedFile): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(blob);
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}
