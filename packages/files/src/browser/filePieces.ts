import type { Pieces } from '../pieces.ts';

/** Workers can wait for a file's bytes; TypeScript's page library leaves it out. */
declare class FileReaderSync {
  readAsArrayBuffer(blob: Blob): ArrayBuffer;
}

/** Bytes that are fetched at once: a call takes some milliseconds, whatever it brings. */
const WINDOW = 2 ** 22;

/**
 * A chosen file in pieces, to be asked for in a worker. Throws the browser's `NotReadableError` when the file was
 * changed or went away since it was chosen.
 */
export function filePieces(file: Blob): Pieces {
  const reader = new FileReaderSync();
  let window: Uint8Array = new Uint8Array(0);
  let from = 0;
  return {
    length: file.size,
    read(at, count) {
      const end = Math.min(file.size, at + count);
      if (at < from || end > from + window.length) {
        window = new Uint8Array(reader.readAsArrayBuffer(file.slice(at, Math.max(end, at + WINDOW))));
        from = at;
      }
      return window.subarray(at - from, end - from);
    },
  };
}
