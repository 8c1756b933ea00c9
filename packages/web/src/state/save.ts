/** A file that was made and goes to where the artist wants it. */
export interface SavedFile {
  readonly blob: Blob;
  readonly name: string;
}

/** Where a written file goes. */
export interface Target {
  /** "saved", to be read after the file's name. */
  readonly words: string;
  /** Puts it there; true when it was read from there again and is the same. */
  take(written: SavedFile): Promise<boolean>;
}

interface SaveWindow {
  showSaveFilePicker?(options: { suggestedName: string }): Promise<FileSystemFileHandle>;
}

/** Asks where to save before anything is made: the browser only asks right after a press. Null when given up. */
export async function savePlace(name: string): Promise<Target | null> {
  const { showSaveFilePicker } = window as SaveWindow;
  if (!showSaveFilePicker) return { words: 'saved with your downloads', take: downloaded };
  try {
    const handle = await showSaveFilePicker({ suggestedName: name });
    return {
      words: 'saved',
      // The browser writes beside the file and swaps it in at the end.
      async take({ blob }) {
        const stream = await handle.createWritable();
        await stream.write(blob);
        await stream.close();
        if (await same(await handle.getFile(), blob)) return true;
        throw new Error('The saved file does not read back as it was written. Save it to another place.');
      },
    };
  } catch (error) {
    if ((error as Error).name === 'AbortError') return null;
    return { words: 'saved with your downloads', take: downloaded };
  }
}

async function same(a: Blob, b: Blob): Promise<boolean> {
  if (a.size !== b.size) return false;
  const [one, other] = await Promise.all([a, b].map(async (it) => new Uint8Array(await it.arrayBuffer())));
  return one.every((byte, k) => byte === other[k]);
}

/** A download can't be read back: no page sees where it went. */
async function downloaded({ blob, name }: SavedFile): Promise<boolean> {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(blob);
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
  return false;
}
