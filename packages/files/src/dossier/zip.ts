import {
  configure,
  ERR_AMBIGUOUS_ARCHIVE,
  ERR_ENCRYPTED,
  ERR_EOCDR_NOT_FOUND,
  ERR_OVERLAPPING_ENTRY,
  ERR_SPLIT_ZIP_FILE,
  ERR_UNSAFE_FILENAME,
  type FileEntry,
  Reader,
  ZipReader,
} from '@zip.js/zip.js/lib/zip-core-native.js';
import { FileTrouble } from '../trouble.ts';
import type { Source } from './source.ts';
import { dossierTrouble } from './trouble.ts';

// Dossiers are read and written in a worker or a command already, and a strict page starts no scripts from text.
// Copying from one ZIP to another takes two places of the library's queue at a time.
configure({ useWebWorkers: false, chunkSize: 1 << 20, maxWorkers: 8 });

/** Sentences about a ZIP of some kind. */
export type ZipWords = Pick<typeof dossierTrouble, 'none' | 'hostile' | 'cutOff'>;

/** More files than any work has: a directory that claims more is there to fill memory. */
const MOST_ENTRIES = 100_000;

/** A source as the ZIP library reads it. */
class SourceReader extends Reader<Source> {
  readonly #source: Source;
  constructor(source: Source) {
    super(source);
    this.#source = source;
    this.size = source.size;
  }
  override async readUint8Array(at: number, length: number): Promise<Uint8Array> {
    return this.#source.read(at, length);
  }
}

/**
 * The files in a ZIP, by their names, after the names and the directory were found harmless: nothing points
 * outside, nothing overlaps or hides behind something else, nothing is a link or locked.
 *
 * @throws FileTrouble
 */
export async function readDirectory(
  source: Source,
  words: ZipWords = dossierTrouble,
): Promise<Map<string, FileEntry>> {
  if (source.size === 0) throw words.none(source.name, 'it is empty');
  const [p, k] = await source.read(0, 2);
  if (p !== 0x50 || k !== 0x4b) throw words.none(source.name, 'it is no ZIP');
  const zip = new ZipReader(new SourceReader(source), {
    strictness: 'strict',
    checkOverlappingEntry: true,
    checkCrc32: true,
  });
  const entries = new Map<string, FileEntry>();
  try {
    for await (const entry of zip.getEntriesGenerator()) {
      if (entry.symlink || entry.encrypted)
        throw words.hostile(
          source.name,
          `“${entry.filename}” in it is ${entry.symlink ? 'a link' : 'locked by a password'}`,
        );
      if (entry.directory) continue;
      if (entries.size === MOST_ENTRIES || entries.has(entry.filename))
        throw words.hostile(
          source.name,
          entries.has(entry.filename) ? `it holds “${entry.filename}” twice` : 'it holds too many files',
        );
      entries.set(entry.filename, entry);
    }
  } catch (error) {
    throw zipTrouble(error, source, words);
  }
  refuseOverlaps([...entries.values()], source, words);
  return entries;
}

/** Files that share bytes unpack to more than is there (Fifield 2019, "A better zip bomb"). */
function refuseOverlaps(entries: FileEntry[], { name }: Source, words: ZipWords): void {
  let end = 0;
  for (const entry of entries.sort((a, b) => a.offset - b.offset)) {
    if (entry.offset < end) throw words.hostile(name, `files in it overlap (“${entry.filename}”)`);
    end = entry.offset + LOCAL_HEADER + entry.compressedSize;
  }
}

/** Bytes of a local file header without its name: APPNOTE.TXT 6.3, section 4.3.7. */
const LOCAL_HEADER = 30;

/** Words for what the ZIP library found wrong. */
export function zipTrouble(
  error: unknown,
  source: Pick<Source, 'name'>,
  words: ZipWords = dossierTrouble,
): FileTrouble {
  if (error instanceof FileTrouble) return error;
  const message = error instanceof Error ? error.message : String(error);
  switch (message) {
    case ERR_UNSAFE_FILENAME: {
      const name = String((error as { filename?: unknown }).filename ?? '');
      return words.hostile(source.name, `a file in it is called “${name}”, which leads outside`, error);
    }
    case ERR_OVERLAPPING_ENTRY:
    case ERR_AMBIGUOUS_ARCHIVE:
      return words.hostile(source.name, 'its list of files and its content contradict each other', error);
    case ERR_ENCRYPTED:
      return words.hostile(source.name, 'it is locked by a password', error);
    case ERR_SPLIT_ZIP_FILE:
      return words.none(source.name, 'it is one part of a split ZIP', error);
    case ERR_EOCDR_NOT_FOUND:
      return words.cutOff(source.name, error);
    default:
      return words.cutOff(source.name, error);
  }
}

/**
 * The content of a file in a ZIP, unpacked while it is read, and stopped as soon as it grows beyond `most` bytes.
 * The stream fails with what the ZIP library or `tooLarge` says.
 */
export function contentOf(
  entry: FileEntry,
  most: number,
  tooLarge: () => FileTrouble,
): ReadableStream<Uint8Array> {
  let seen = 0;
  const { readable, writable } = new TransformStream<Uint8Array, Uint8Array>({
    transform(chunk, controller) {
      seen += chunk.length;
      if (seen > most) throw tooLarge();
      controller.enqueue(chunk);
    },
  });
  // What goes wrong before the first byte does not reach the stream by itself.
  entry.getData(writable).catch((error) => writable.abort(error).catch(() => undefined));
  return readable;
}
