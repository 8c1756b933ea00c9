import type { FileEntry } from '@zip.js/zip.js/lib/zip-core-native.js';
import { ZipWriter } from '@zip.js/zip.js/lib/zip-core-native.js';
import type { FileTrouble } from '../trouble.ts';
import { MANIFEST } from './open.ts';
import type { Source } from './source.ts';
import { dossierTrouble } from './trouble.ts';
import { contentOf, readDirectory } from './zip.ts';

/** A dossier that goes into a file of the whole shelf. */
export interface ShelfPart {
  /** Name inside the ZIP, without its ending. */
  readonly name: string;
  /** Writes the dossier; the sink is closed at the end. */
  write(sink: WritableStream<Uint8Array>): Promise<void>;
}

const ENDING = '.halflight';

/** Writes a whole shelf: an ordinary ZIP with one dossier a work, stored, so that any program takes them out. */
export async function writeShelfFile(
  sink: WritableStream<Uint8Array>,
  parts: Iterable<ShelfPart> | AsyncIterable<ShelfPart>,
  written: string,
): Promise<void> {
  const zip = new ZipWriter(sink, {
    extendedTimestamp: false,
    lastModDate: new Date(written),
    keepOrder: true,
  });
  const names = new Set<string>();
  for await (const { name, write } of parts) {
    const { readable, writable } = new TransformStream<Uint8Array, Uint8Array>();
    const path = freeName(name, names);
    const reading = zip.add(path, readable, { level: 0 });
    // What fails in one reaches the other through the stream between them.
    reading.catch((error) => writable.abort(error).catch(() => undefined));
    await write(writable);
    await reading;
  }
  await zip.close();
}

/** A dossier in a file of a whole shelf. */
export interface PackedDossier {
  readonly name: string;
  readonly bytes: number;
  stream(): ReadableStream<Uint8Array>;
}

/**
 * The dossiers in a file of a whole shelf; null when the file is something else, a dossier itself for example.
 *
 * @throws FileTrouble when it is damaged or hostile
 */
export async function openShelfFile(source: Source): Promise<PackedDossier[] | null> {
  const entries = await readDirectory(source);
  if (entries.has(MANIFEST)) return null;
  const dossiers = [...entries].filter(([path]) => path.toLowerCase().endsWith(ENDING));
  return dossiers.length === 0 ? null : dossiers.map(([path, entry]) => packed(path, entry, source));
}

function packed(path: string, entry: FileEntry, source: Source): PackedDossier {
  const larger = (): FileTrouble => dossierTrouble.changed(source.name, path);
  return {
    name: path.slice(path.lastIndexOf('/') + 1),
    bytes: entry.uncompressedSize,
    stream: () => contentOf(entry, entry.uncompressedSize, larger),
  };
}

/** A name that every file system takes, and that is not in use yet. */
function freeName(name: string, used: Set<string>): string {
  const plain = fileName(name);
  for (let k = 1; ; k++) {
    const path = `${k === 1 ? plain : `${plain} ${k}`}${ENDING}`;
    if (used.has(path.toLowerCase())) continue;
    used.add(path.toLowerCase());
    return path;
  }
}

/** A title as a file name: letters, digits, spaces and hyphens. */
export function fileName(title: string): string {
  const plain = title
    .normalize('NFC')
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .trim();
  return plain.slice(0, 80).trim() || 'work';
}
