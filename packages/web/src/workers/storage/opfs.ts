import type { Files } from '../../storage/files.ts';

/** Exclusive access to a file, which only workers have; TypeScript's page library leaves it out. */
interface SyncHandle {
  read(buffer: Uint8Array, options?: { at: number }): number;
  write(buffer: Uint8Array, options?: { at: number }): number;
  truncate(size: number): void;
  getSize(): number;
  flush(): void;
  close(): void;
}

/** Files in the origin-private file system, or null where the browser has none (a private window). */
export async function opfsFiles(): Promise<Files | null> {
  try {
    const root = await navigator.storage.getDirectory();
    if (!('createSyncAccessHandle' in FileSystemFileHandle.prototype)) return null;
    try {
      await root.getFileHandle('probe', { create: true });
      await root.removeEntry('probe');
    } catch (error) {
      // A store that is full takes no file more, but works in it can be opened.
      if ((error as Error).name !== 'QuotaExceededError') throw error;
    }
    return inFolder(root);
  } catch {
    return null;
  }
}

function inFolder(root: FileSystemDirectoryHandle): Files {
  const handle = async (path: string, create: boolean) => {
    const names = path.split('/');
    let folder = root;
    for (const name of names.slice(0, -1)) folder = await folder.getDirectoryHandle(name, { create });
    return folder.getFileHandle(names[names.length - 1], { create });
  };
  const change = async (path: string, act: (file: SyncHandle) => void) => {
    const file = await openSync(await handle(path, true));
    try {
      act(file);
      file.flush();
    } finally {
      file.close();
    }
  };
  const remove = async (path: string) => {
    const names = path.split('/');
    let folder = root;
    try {
      for (const name of names.slice(0, -1)) folder = await folder.getDirectoryHandle(name);
      await folder.removeEntry(names[names.length - 1], { recursive: true });
    } catch (error) {
      if ((error as Error).name !== 'NotFoundError') throw error;
    }
  };
  return {
    read: async (path) => {
      const file = await handle(path, false).catch(() => null);
      return file && readWhole(file);
    },
    blob: async (path) => {
      const file = await handle(path, false).catch(() => null);
      return file === null ? null : file.getFile();
    },
    size: async (path) => {
      const file = await handle(path, false).catch(() => null);
      return file && (await file.getFile()).size;
    },
    write: (path, bytes) =>
      change(path, (file) => {
        writeAll(file, bytes, 0);
        file.truncate(bytes.length);
      }),
    sink: async (path) => {
      const file = await openSync(await handle(path, true));
      let at = 0;
      const leave = async () => {
        file.close();
        await remove(path);
      };
      return new WritableStream({
        start: () => file.truncate(0),
        // A write that throws errors the stream, which is not the same as being aborted.
        async write(piece) {
          try {
            writeAll(file, piece, at);
            at += piece.length;
          } catch (error) {
            await leave();
            throw error;
          }
        },
        close() {
          file.flush();
          file.close();
        },
        abort: leave,
      });
    },
    append: (path, bytes) => change(path, (file) => writeAll(file, bytes, file.getSize())),
    remove,
    list: async (path) => {
      const names: string[] = [];
      try {
        let folder = root;
        for (const name of path.split('/')) folder = await folder.getDirectoryHandle(name);
        for await (const name of (folder as unknown as { keys(): AsyncIterable<string> }).keys())
          names.push(name);
      } catch (error) {
        if ((error as Error).name !== 'NotFoundError') throw error;
      }
      return names;
    },
    // A file is made that long without writing anything: the browser then asks its own count. What it tells of its
    // quota is no measure: some add a fixed sum to what is used.
    hasRoom: async (bytes) => {
      const file = await openSync(await handle('probe', true));
      try {
        file.truncate(bytes);
        return file.getSize() === bytes;
      } catch {
        return false;
      } finally {
        file.close();
        await remove('probe');
      }
    },
  };
}

/** Another tab may write the file between the look at it and its reading: a few tries. */
async function readWhole(handle: FileSystemFileHandle): Promise<Uint8Array<ArrayBuffer>> {
  for (let attempt = 0; ; attempt++) {
    try {
      return new Uint8Array(await (await handle.getFile()).arrayBuffer());
    } catch (error) {
      if ((error as Error).name !== 'NotReadableError' || attempt === 20) throw error;
      await new Promise((resolve) => setTimeout(resolve, 25));
    }
  }
}

/** Another tab may hold the file for a moment: a few tries. */
async function openSync(handle: FileSystemFileHandle): Promise<SyncHandle> {
  for (let attempt = 0; ; attempt++) {
    try {
      return await (
        handle as unknown as { createSyncAccessHandle(): Promise<SyncHandle> }
      ).createSyncAccessHandle();
    } catch (error) {
      if ((error as Error).name !== 'NoModificationAllowedError' || attempt === 20) throw error;
      await new Promise((resolve) => setTimeout(resolve, 25));
    }
  }
}

/**
 * A full store shows as an error, as a short write, or (Chromium 150) as a number far above what was to be written,
 * with nothing written and no error: all of them become the error.
 */
function writeAll(file: SyncHandle, bytes: Uint8Array, at: number): void {
  const written = file.write(bytes, { at });
  if (written !== bytes.length || file.getSize() < at + bytes.length) {
    file.truncate(at);
    throw new DOMException('The browser’s store is full.', 'QuotaExceededError');
  }
}
