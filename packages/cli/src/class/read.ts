import { createHash } from 'node:crypto';
import { rm, stat } from 'node:fs/promises';
import { basename, join } from 'node:path';
import {
  checkLine,
  namesInFile,
  type PictureFacts,
  rank,
  readingInput,
  reduceView,
  strengthsOf,
  takeOut,
  type View,
} from '@halflight/engine';
import { type Codec, newWork, takenByCamera } from '@halflight/files';
import type { NewThing } from '@halflight/files/dossier';
import {
  encodeForPage,
  encodeSmall,
  readBytes,
  saveDossierFile,
  showView,
  writeAtomically,
} from '@halflight/files/node';
import { lineOf } from '../check/line.ts';
import type { Wish } from '../check/look.ts';
import { measure } from '../check/measure.ts';
import { troubleOf } from '../check/outcome.ts';
import { takeReadings } from '../check/readings.ts';
import { MEDIA_TYPES } from '../work/read.ts';
import { dossierFile, type Entry, pageFile, smallFile } from './entry.ts';

/** One work to read. */
export interface ClassTask {
  readonly path: string;
  /** Folder for the pictures of the pages. */
  readonly folder: string;
  /** Whether a dossier is written too. */
  readonly dossier: boolean;
  readonly wish: Wish;
}

/** Long sides of the pictures that pages show. */
const PAGE = 1600;
const SMALL = 320;

/** SHA-256 of a file, in hexadecimal. */
export const hashOf = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

/** Name of what is kept of a work: two that are the same to the byte are still two works. */
export const idOf = (name: string, sha256: string): string =>
  hashOf(new TextEncoder().encode(`${name}\n${sha256}`)).slice(0, 32);

/** Reads one work and writes the pictures that its page needs; whatever goes wrong with it becomes words. */
export async function readEntry(task: ClassTask, codec: Codec): Promise<Entry> {
  const name = basename(task.path);
  const found = await stat(task.path).catch(() => null);
  const modified = new Date(Math.floor(found?.mtimeMs ?? 0)).toISOString();
  let sha256 = '';
  try {
    const bytes = await readBytes(task.path, name);
    sha256 = hashOf(bytes);
    return await readWhole(task, codec, { name, sha256, modified, bytes });
  } catch (error) {
    const trouble = troubleOf(error, name);
    return {
      name,
      id: idOf(name, sha256),
      sha256,
      modified,
      line: lineOf({ name, trouble }),
      trouble: `${trouble.sentence} ${trouble.todo}`,
      strong: [],
      notes: [],
      dossier: false,
    };
  }
}

interface Whole {
  readonly name: string;
  readonly sha256: string;
  readonly modified: string;
  readonly bytes: Uint8Array;
}

async function readWhole({ folder, wish, dossier }: ClassTask, codec: Codec, whole: Whole): Promise<Entry> {
  const { name, sha256, modified, bytes } = whole;
  const id = idOf(name, sha256);
  const { intent, baseline, limitMegapixels } = wish;
  const decoded = await codec.decode(bytes, { name, limitMegapixels });
  const { raster, photographed, note } = takeOut(decoded.raster, takenByCamera(decoded.metadata.exif));
  const facts: PictureFacts = { ...decoded.facts, width: raster.width, height: raster.height };
  const { census, views } = measure(raster);
  const input = readingInput({ picture: facts, census, views, intent, baseline, photographed });
  const readings = await takeReadings(input, null);
  const { findings } = rank(readings, intent);
  const line = checkLine({ picture: facts, readings, findings }, raster.space);
  const page = await keepPicture(join(folder, pageFile(id)), views.close, PAGE);
  const small = await keepPicture(join(folder, smallFile(id)), views.middle, SMALL);
  if (dossier) {
    const thing = encodeSmall(showView(reduceView(views.middle, SMALL)));
    const sheet = { ...decoded.facts, mediaType: MEDIA_TYPES[decoded.format] };
    await keepDossier(join(folder, dossierFile(id)), whole, sheet, line, await thing, intent);
  }
  const notes = note === null ? decoded.notes : [...decoded.notes, note];
  return { name, id, sha256, modified, line, strong: strengthsOf(readings), notes, page, small, dossier };
}

async function keepPicture(
  path: string,
  view: View,
  longSide: number,
): Promise<{ width: number; height: number }> {
  const shown = showView(reduceView(view, longSide));
  await writeAtomically(path, await encodeForPage(shown, 'jpeg'));
  return { width: shown.width, height: shown.height };
}

/** The work of one student as a dossier: the picture as it was handed in, with the intent of the assignment. */
async function keepDossier(
  path: string,
  { name, sha256, modified, bytes }: Whole,
  facts: PictureFacts & { readonly mediaType: string },
  line: string,
  small: Uint8Array,
  intent: Wish['intent'],
): Promise<void> {
  const thingOf = (content: Uint8Array, mediaType: string): NewThing => ({
    hash: hashOf(content),
    bytes: content.length,
    mediaType,
    open: () => content,
  });
  const things = [
    thingOf(bytes, facts.mediaType),
    thingOf(new TextEncoder().encode(line), 'application/json'),
    thingOf(small, 'image/webp'),
  ];
  const { who, title } = namesInFile(name);
  const work = newWork(uuidOf(idOf(name, sha256)), title || who, {
    ...facts,
    number: 1,
    hash: sha256,
    bytes: bytes.length,
    added: modified,
    readings: things[1].hash,
    small: things[2].hash,
  });
  // One of a run with other settings may be left, and a dossier is never written over.
  await rm(path, { force: true });
  await saveDossierFile(path, { work: { ...work, intent }, things, writer: 'Halflight', written: modified });
}

/** The same work gets the same name in whatever run: a UUID of its own making (RFC 9562, version 8). */
function uuidOf(id: string): string {
  const hex = `${id.slice(0, 12)}8${id.slice(13, 16)}8${id.slice(17)}`;
  return hex.replace(/^(.{8})(.{4})(.{4})(.{4})(.{12})$/, '$1-$2-$3-$4-$5');
}
