import { type FileEntry, Uint8ArrayReader, ZipWriter } from '@zip.js/zip.js/lib/zip-core-native.js';
import type { Manifest, Thing } from './manifest.ts';
import { type Dossier, MANIFEST } from './open.ts';
import type { Work } from './work.ts';

/** First file of the ZIP, stored, so that the kind can be told from the first bytes (as in other ZIP formats). */
const MEDIA_TYPE = 'application/x-halflight-dossier';

/** Bytes to put into a dossier. */
export interface NewThing {
  readonly hash: string;
  readonly bytes: number;
  readonly mediaType: string;
  /** Opened once, when its turn comes. */
  open(): ReadableStream<Uint8Array> | Uint8Array | Promise<ReadableStream<Uint8Array> | Uint8Array>;
}

export interface DossierDraft {
  readonly work: Work;
  /** What the older dossier does not hold yet; things it has are passed over. */
  readonly things: readonly NewThing[];
  /** The dossier that this one continues: all its files and all fields that are not known here are kept. */
  readonly older?: Dossier;
  /** Program that writes, for people. */
  readonly writer: string;
  /** When, ISO 8601. */
  readonly written: string;
}

/**
 * Writes a dossier piece by piece: never more than one piece of a picture is in memory. Above 4 GB the file
 * becomes a ZIP64 by itself.
 *
 * @param sink closed at the end; aborted when something fails
 */
export async function writeDossier(
  sink: WritableStream<Uint8Array>,
  draft: DossierDraft,
  onProgress?: (share: number) => void,
): Promise<void> {
  const { older } = draft;
  const fresh = unique(draft.things).filter((thing) => !older?.has(thing.hash));
  const added = fresh.map((thing): Thing => {
    const { hash, bytes, mediaType } = thing;
    return { hash, bytes, mediaType, path: pathOf(thing) };
  });
  // Entries of the older list whose content is missing go, so that another copy can bring it back.
  const kept = (older?.manifest.files ?? []).filter(({ hash }) => older!.has(hash));
  const manifest: Manifest = {
    ...older?.manifest,
    schema: 'halflight/dossier@1',
    writer: draft.writer,
    written: draft.written,
    work: draft.work,
    files: [...kept, ...added],
  };

  const zip = new ZipWriter(sink, {
    extendedTimestamp: false,
    lastModDate: new Date(draft.written),
    keepOrder: true,
  });
  const total = manifest.files.reduce((sum, { bytes }) => sum + bytes, 1);
  let done = 0;
  const whole = { dataDescriptor: false } as const;
  await zip.add('mimetype', new Uint8ArrayReader(new TextEncoder().encode(MEDIA_TYPE)), {
    ...whole,
    level: 0,
  });
  const text = new TextEncoder().encode(JSON.stringify(manifest, null, 1));
  await zip.add(MANIFEST, new Uint8ArrayReader(text), whole);
  for (const [path, entry] of older?.entries ?? []) {
    if (path === MANIFEST || path === 'mimetype') continue;
    await copyEntry(zip, path, entry);
    done += entry.uncompressedSize;
    onProgress?.(Math.min(1, done / total));
  }
  for (const [i, thing] of fresh.entries()) {
    const content = await thing.open();
    const packed = isText(thing.mediaType);
    if (content instanceof Uint8Array)
      await zip.add(added[i].path, new Uint8ArrayReader(content), { level: packed ? 6 : 0 });
    else await zip.add(added[i].path, content, { level: packed ? 6 : 0, uncompressedSize: thing.bytes });
    done += thing.bytes;
    onProgress?.(Math.min(1, done / total));
  }
  await zip.close();
}

/** Copies a file from one ZIP to another as it lies there, without unpacking it. */
async function copyEntry(zip: ZipWriter<unknown>, path: string, entry: FileEntry): Promise<void> {
  const { readable, writable } = new TransformStream<Uint8Array, Uint8Array>();
  const stop = new AbortController();
  const read = entry.getData(writable, { passThrough: true, checkCrc32: false, signal: stop.signal });
  // What goes wrong before the first byte does not reach the other side by itself.
  read.catch((error) => writable.abort(error).catch(() => undefined));
  try {
    await zip.add(path, readable, { entry, passThrough: true });
    await read;
  } catch (error) {
    // Neither side may wait for the other for ever.
    stop.abort(error);
    await read.catch(() => undefined);
    throw error;
  }
}

/** Pictures are packed already, and stored they can be cut out by any program. */
function isText(mediaType: string): boolean {
  return mediaType === 'application/json' || mediaType.startsWith('text/');
}

const ENDINGS: Readonly<Record<string, string>> = {
  'image/png': '.png',
  'image/jpeg': '.jpg',
  'image/webp': '.webp',
  'image/tiff': '.tif',
  'image/avif': '.avif',
  'image/gif': '.gif',
  'application/json': '.json',
};

/** Where a thing lies: a folder by kind, a name by content, an ending so that the unpacked file opens. */
function pathOf({ hash, mediaType }: NewThing): string {
  const folder = isText(mediaType) ? 'readings' : 'pictures';
  return `${folder}/${hash}${ENDINGS[mediaType] ?? ''}`;
}

function unique(things: readonly NewThing[]): NewThing[] {
  return [...new Map(things.map((thing) => [thing.hash, thing])).values()];
}
