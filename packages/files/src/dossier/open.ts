import type { FileEntry } from '@zip.js/zip.js/lib/zip-core-native.js';
import { FileTrouble } from '../trouble.ts';
import { type Hasher, pieceHasher } from './hash.ts';
import { checkManifest, type Manifest, type Thing } from './manifest.ts';
import type { Source } from './source.ts';
import { dossierTrouble } from './trouble.ts';
import type { Work } from './work.ts';
import { contentOf, readDirectory, zipTrouble } from './zip.ts';

/** A dossier that can be read; it stays tied to its source. */
export interface Dossier {
  readonly name: string;
  readonly work: Work;
  /** With all fields of newer programs. */
  readonly manifest: Manifest;
  /** Whether the dossier knows this content. */
  has(hash: string): boolean;
  /** The content of a thing, checked while it is read: the stream fails at its end when the checksum differs. */
  stream(hash: string): ReadableStream<Uint8Array>;
  /** The same in memory; refused above `most` bytes. */
  bytes(hash: string, most?: number): Promise<Uint8Array<ArrayBuffer>>;
  /** Reads everything and gives a sentence for each thing that is not as it was put in. */
  verify(onProgress?: (share: number) => void): Promise<FileTrouble[]>;
  /** For the writer: the files as they lie in the ZIP. */
  readonly entries: ReadonlyMap<string, FileEntry>;
}

export interface OpenOptions {
  readonly hasher?: () => Hasher | Promise<Hasher>;
}

export const MANIFEST = 'manifest.json';

/** A manifest is text about a work; above this something else is going on. */
const MOST_MANIFEST = 64 * 2 ** 20;
/** A single thing in memory: no picture within the pixel limit is as large. */
const MOST_IN_MEMORY = 2 ** 31 - 1;
// Readings shrink to a twentieth; what swells two-hundredfold was made to.
const BOMB_BYTES = 2 ** 20;
const BOMB_FACTOR = 200;

/**
 * Opens a dossier: reads its directory and its manifest, and nothing else yet.
 *
 * @throws FileTrouble when it is none, is damaged, hostile, or written by a newer Halflight
 */
export async function openDossier(
  source: Source,
  { hasher = pieceHasher }: OpenOptions = {},
): Promise<Dossier> {
  const entries = await readDirectory(source);
  const { name } = source;
  for (const entry of entries.values()) refuseBomb(entry, name);
  const manifest = await readManifest(entries, source);
  const things = new Map(manifest.files.map((thing) => [thing.hash, thing]));

  const stream = (hash: string): ReadableStream<Uint8Array> => {
    const thing = things.get(hash);
    const entry = thing && entries.get(thing.path);
    if (!thing || !entry) throw dossierTrouble.missing(name, thing?.path ?? hash);
    const changed = () => dossierTrouble.changed(name, thing.path);
    const content = contentOf(entry, thing.bytes, changed).pipeThrough(checker(thing, hasher, changed));
    return inWords(content, (error) => asTrouble(error, name, thing.path));
  };
  const bytes = async (hash: string, most = MOST_IN_MEMORY): Promise<Uint8Array<ArrayBuffer>> => {
    const size = things.get(hash)?.bytes ?? 0;
    if (size > most)
      throw dossierTrouble.hostile(
        name,
        `“${things.get(hash)?.path}” in it has ${size} bytes, which is too much`,
      );
    return collect(stream(hash), size);
  };
  return {
    name,
    work: manifest.work,
    manifest,
    entries,
    has: (hash) => things.has(hash) && entries.has(things.get(hash)!.path),
    stream,
    bytes,
    async verify(onProgress) {
      const troubles: FileTrouble[] = [];
      const total = manifest.files.reduce((sum, thing) => sum + thing.bytes, 1);
      let done = 0;
      for (const thing of things.values()) {
        try {
          for await (const chunk of stream(thing.hash)) {
            done += chunk.length;
            onProgress?.(Math.min(1, done / total));
          }
        } catch (error) {
          troubles.push(asTrouble(error, name, thing.path));
        }
      }
      return troubles;
    },
  };
}

async function readManifest(entries: ReadonlyMap<string, FileEntry>, source: Source): Promise<Manifest> {
  const { name } = source;
  const entry = entries.get(MANIFEST);
  if (!entry) throw dossierTrouble.none(name, `it has no ${MANIFEST}`);
  const tooLarge = () => dossierTrouble.hostile(name, `its ${MANIFEST} unpacks to more than it should`);
  if (entry.uncompressedSize > MOST_MANIFEST) throw tooLarge();
  let value: unknown;
  try {
    const size = entry.uncompressedSize;
    const bytes = await collect(contentOf(entry, size, tooLarge), size);
    value = JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(bytes));
  } catch (error) {
    if (error instanceof SyntaxError || error instanceof TypeError)
      throw dossierTrouble.none(name, `its ${MANIFEST} is no JSON`, error);
    throw zipTrouble(error, source);
  }
  const checked = checkManifest(value);
  if (checked.ok) return checked.manifest;
  if (checked.newer !== undefined) throw dossierTrouble.newer(name, checked.newer);
  throw dossierTrouble.manifest(name, checked.trouble);
}

function refuseBomb({ filename, compressedSize, uncompressedSize }: FileEntry, name: string): void {
  if (uncompressedSize < BOMB_BYTES || uncompressedSize < BOMB_FACTOR * compressedSize) return;
  const megabytes = Math.round(uncompressedSize / 2 ** 20);
  throw dossierTrouble.hostile(name, `“${filename}” in it would swell to ${megabytes} MB when unpacked`);
}

/** Lets bytes through and fails at the end when they are not those that were put in. */
function checker(
  thing: Thing,
  open: () => Hasher | Promise<Hasher>,
  changed: () => FileTrouble,
): TransformStream<Uint8Array, Uint8Array> {
  let hasher: Hasher;
  return new TransformStream({
    async start() {
      hasher = await open();
    },
    transform(chunk, controller) {
      hasher.update(chunk);
      controller.enqueue(chunk);
    },
    flush() {
      if (hasher.end() !== thing.hash) throw changed();
    },
  });
}

/** The same stream, failing only with troubles that have words. */
function inWords(
  content: ReadableStream<Uint8Array>,
  words: (error: unknown) => FileTrouble,
): ReadableStream<Uint8Array> {
  const reader = content.getReader();
  return new ReadableStream(
    {
      async pull(controller) {
        try {
          const { done, value } = await reader.read();
          if (done) controller.close();
          else controller.enqueue(value);
        } catch (error) {
          controller.error(words(error));
        }
      },
      cancel: (reason) => reader.cancel(reason),
    },
    { highWaterMark: 0 },
  );
}

/** A stream's bytes in one piece. */
async function collect(stream: ReadableStream<Uint8Array>, size: number): Promise<Uint8Array<ArrayBuffer>> {
  const pieces: Uint8Array[] = [];
  let length = 0;
  for await (const chunk of stream) {
    pieces.push(chunk);
    length += chunk.length;
  }
  const whole = new Uint8Array(length === size ? size : length);
  let at = 0;
  for (const piece of pieces) {
    whole.set(piece, at);
    at += piece.length;
  }
  return whole;
}

/** Whatever went wrong with one thing, in words. */
function asTrouble(error: unknown, name: string, path: string): FileTrouble {
  return error instanceof FileTrouble ? error : dossierTrouble.changed(name, path, error);
}
