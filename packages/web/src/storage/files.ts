/**
 * The few things storage asks of a place for bytes. Paths are names joined by "/". A write replaces the
 * file, an append adds to its end; both are on the disk when the promise resolves. Neither is atomic: who
 * uses them must be able to recognise a torn file.
 */
export interface Files {
  read(path: string): Promise<Uint8Array<ArrayBuffer> | null>;
  /** A file without reading it: its bytes come piece by piece when they are asked for. */
  blob(path: string): Promise<Blob | null>;
  /** Bytes of a file, null when there is none. */
  size(path: string): Promise<number | null>;
  write(path: string, bytes: Uint8Array): Promise<void>;
  append(path: string, bytes: Uint8Array): Promise<void>;
  /** Replaces a file by what is written into the stream; removes it when the stream is aborted. */
  sink(path: string): Promise<WritableStream<Uint8Array>>;
  remove(path: string): Promise<void>;
  /** Names in a folder, empty when there is no such folder. */
  list(folder: string): Promise<string[]>;
  /** Whether so many bytes more would be taken. */
  hasRoom(bytes: number): Promise<boolean>;
}

/** Files that last as long as the page: where the browser gives no other place, and in tests. */
export function memoryFiles(): Files {
  const files = new Map<string, Uint8Array<ArrayBuffer>>();
  return {
    read: async (path) => files.get(path)?.slice() ?? null,
    blob: async (path) => {
      const bytes = files.get(path);
      return bytes ? new Blob([bytes]) : null;
    },
    size: async (path) => files.get(path)?.length ?? null,
    write: async (path, bytes) => void files.set(path, Uint8Array.from(bytes)),
    append: async (path, bytes) => {
      const old = files.get(path) ?? new Uint8Array();
      const next = new Uint8Array(old.length + bytes.length);
      next.set(old);
      next.set(bytes, old.length);
      files.set(path, next);
    },
    sink: async (path) => {
      const pieces: Uint8Array<ArrayBuffer>[] = [];
      return new WritableStream({
        write: (piece) => void pieces.push(Uint8Array.from(piece)),
        close: async () => {
          files.set(path, new Uint8Array(await new Blob(pieces).arrayBuffer()));
        },
        abort: () => void files.delete(path),
      });
    },
    remove: async (path) => {
      for (const key of files.keys()) if (key === path || key.startsWith(`${path}/`)) files.delete(key);
    },
    list: async (folder) => {
      const names = new Set<string>();
      for (const key of files.keys()) {
        if (key.startsWith(`${folder}/`)) names.add(key.slice(folder.length + 1).split('/')[0]);
      }
      return [...names];
    },
    hasRoom: async () => true,
  };
}
