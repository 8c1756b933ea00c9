/** Bytes that can be read in any place: a file on disk, or a Blob. */
export interface Source {
  /** For sentences about trouble. */
  readonly name: string;
  readonly size: number;
  /** Up to `length` bytes from `at` on; fewer only at the end. */
  read(at: number, length: number): Promise<Uint8Array>;
}

/** A Blob (a chosen file, a part of the browser's store) as a source. */
export function blobSource(blob: Blob, name: string): Source {
  return {
    name,
    size: blob.size,
    read: async (at, length) => new Uint8Array(await blob.slice(at, at + length).arrayBuffer()),
  };
}

/** Bytes in memory as a source. */
export function bytesSource(bytes: Uint8Array, name: string): Source {
  return { name, size: bytes.length, read: async (at, length) => bytes.subarray(at, at + length) };
}
