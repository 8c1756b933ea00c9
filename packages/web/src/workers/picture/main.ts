import {
  type Baseline,
  type Census,
  type Examination,
  examine,
  type Field,
  type Intent,
  type LayersReading,
  makeViews,
  type PictureFacts,
  type Place,
  type Raster,
  type ReadingId,
  type ReadingInput,
  readingInput,
  reduceView,
  takeCensus,
  type Views,
} from '@halflight/engine';
import type { Decoded } from '@halflight/files';
import { expose, transfer } from 'comlink';
import type { Answer } from '../../document/work.ts';
import type { PictureDesk, ScreenSpace, SeenMap, SeenReading } from '../../picture/desk.ts';
import type { EditDesk } from '../../picture/edit-desk.ts';
import type { HandoverDesk } from '../../picture/handover-desk.ts';
import type { TimeDesk } from '../../picture/time-desk.ts';
import { decodePicture, readyCodec, warmCodec } from './decode.ts';
import { later } from './later.ts';
import { leftOutOf } from './left-out.ts';
import { paintView, paintWindow, type ScreenPixels } from './paint.ts';
import { readPlace } from './place.ts';
import { placesOf } from './places.ts';
import { openTimeDesk } from './time.ts';

/** Longest side of the small picture on the shelf, enough for a screen with two device pixels a pixel. */
const THUMB_SIDE = 320;

interface OnDesk {
  readonly facts: PictureFacts;
  readonly raster: Raster;
  readonly census: Census;
  readonly views: Views;
  readonly screen: ScreenSpace;
  /** What is known of its file. */
  readonly source: Decoded;
}

let onDesk: OnDesk | null = null;
/** The views of the work's newest version: what comes next is compared with them. */
let before: Views | null = null;
/** Where the codec lies; told with the first picture. */
let appFolder = '';
/** What is usual for the artist, as the page told it with the last reading. */
let usual: Baseline | null = null;
/** What its layers are worth, once they were read. */
let layers: LayersReading | null = null;
let last: { input: ReadingInput; examination: Examination; leftOutKey: string } | null = null;

const desk: PictureDesk = {
  async warm(appBase) {
    warmCodec(appBase);
  },

  async open(file, name, { screen, appBase }, progress) {
    onDesk = null;
    last = null;
    layers = null;
    appFolder = appBase;
    const source = await decodePicture(file, name, appBase, progress);
    const { raster, facts, notes } = source;
    progress({ doing: 'Counting the colours', share: 0.6 });
    const census = takeCensus(raster);
    progress({ doing: 'Looking from close by and from afar', share: 0.75 });
    const views = makeViews(raster);
    onDesk = { facts, raster, census, views, screen, source };
    const bitmap = await toBitmap(paintView(views.close, screen), views.close.width, screen);
    const thumb = await smallPicture(views);
    progress({ doing: 'Writing the notes', share: 0.9 });
    return transfer({ facts, bitmap, thumb, remarks: notes }, [bitmap]);
  },

  async examine(intent, answers, baseline) {
    usual = baseline;
    const { findings, settled, undecided, readings } = examineOpen(intent, answers).examination;
    return { findings, settled, undecided, readings: readings.map(seen) };
  },

  async takeLayers(reading) {
    layers = reading;
  },

  async map(reading, name) {
    const shown = showMap(reading, name);
    if (shown === null) return null;
    const { width, height } = shown.map;
    const data = shown.map.data.slice();
    return transfer({ width, height, data }, [data.buffer]);
  },

  async places(reading, name) {
    return showMap(reading, name)?.places ?? [];
  },

  async window(part) {
    const { raster, screen } = need();
    const bitmap = await toBitmap(paintWindow(raster, part, screen), part.outWidth, screen);
    return transfer(bitmap, [bitmap]);
  },

  async place(x, y, radius) {
    return readPlace(need().raster, x, y, radius);
  },
};

/** The readings of the open picture; those that the change of intent leaves alone are kept. */
function examineOpen(intent: Intent, answers: readonly Answer[]): NonNullable<typeof last> {
  const { facts, census, views } = need();
  const outlines = answers.filter(({ kind, outline }) => kind === 'wrong' && outline);
  const leftOutKey = JSON.stringify(outlines.map(({ outline }) => outline));
  const leftOut = last?.leftOutKey === leftOutKey ? last.input.leftOut : leftOutOf(answers, views.close);
  const input = readingInput({ picture: facts, census, views, intent, leftOut, baseline: usual, layers });
  const examination = examine(input, answers, last ?? undefined);
  last = { input, examination, leftOutKey };
  return last;
}

/** Reads a picture that stays beside the open one. */
function another(file: Blob, name: string): Promise<Decoded> {
  return decodePicture(file, name, appFolder, () => undefined);
}

function need(): OnDesk {
  if (onDesk === null) throw new Error('No picture is open.');
  return onDesk;
}

function seen(reading: Examination['readings'][number]): SeenReading {
  const { id, title, about, sources, findings, fine, drawing, measures } = reading;
  const { evidence, value } = reading.reading;
  return { id, title, about, sources, evidence, value, findings, fine, drawing, measures };
}

/** A map with the places that were found in it. */
interface ShownMap {
  readonly map: SeenMap;
  readonly places: readonly Place[];
}

/** Maps that were made, kept as long as their reading is: a reading that stays is not asked again. */
const shownMaps = new WeakMap<object, Map<string, ShownMap>>();

function showMap(id: ReadingId, name: string): ShownMap | null {
  const reading = last?.examination.readings.find((it) => it.id === id)?.reading;
  const make = reading?.maps[name];
  if (reading === undefined || make === undefined) return null;
  const known = shownMaps.get(reading) ?? new Map<string, ShownMap>();
  shownMaps.set(reading, known);
  const shown = known.get(name);
  if (shown) return shown;
  const field = make();
  const made = { map: toBytes(field), places: placesOf(field) };
  known.set(name, made);
  return made;
}

function toBytes({ width, height, data: values }: Field): SeenMap {
  const data = new Uint8Array(width * height);
  for (let i = 0; i < data.length; i++) data[i] = 255 * Math.min(1, Math.max(0, values[i])) + 0.5;
  return { width, height, data };
}

function toBitmap(pixels: ScreenPixels, width: number, screen: ScreenSpace): Promise<ImageBitmap> {
  const image = new ImageData(pixels, width, pixels.length / 4 / width, { colorSpace: screen });
  return createImageBitmap(image);
}

function smallPicture({ close }: Views): Promise<Blob> {
  const small = reduceView(close, THUMB_SIDE);
  return toBlob(paintView(small, 'srgb'), small.width);
}

async function toBlob(pixels: ScreenPixels, width: number): Promise<Blob> {
  const image = new ImageData(pixels, width, pixels.length / 4 / width);
  const canvas = new OffscreenCanvas(image.width, image.height);
  canvas.getContext('2d')?.putImageData(image, 0, 0);
  return canvas.convertToBlob({ type: 'image/webp', quality: 0.9 });
}

const edit = later<EditDesk>(
  {
    space: true,
    explain: true,
    placeDrawing: true,
    preview: true,
    editedWindow: true,
    measure: true,
    examineEdit: true,
    areaMap: true,
    cardSource: true,
    bake: true,
    example: true,
    propose: true,
    stopProposing: true,
    options: true,
    lights: true,
    stopOptions: true,
    write: true,
    stopWriting: true,
    guide: true,
  },
  async () => {
    const { openEditDesk } = await import('./edit/desk.ts');
    return openEditDesk({
      open: need,
      codec: () => readyCodec(appFolder),
      decode: another,
      examine: examineOpen,
      seen,
      toBitmap,
    });
  },
);
const time = openTimeDesk({
  open: need,
  before: () => before,
  keepAsBefore: () => {
    before = onDesk?.views ?? before;
  },
  decode: another,
  examine: examineOpen,
  seen,
  toBytes,
  toBitmap,
  smallPicture,
});
const handover = later<HandoverDesk>(
  {
    handOver: true,
    stopHandover: true,
    loss: true,
    calm: true,
    palette: true,
    paletteFile: true,
    table: true,
    tableNote: true,
    record: true,
    report: true,
  },
  async () => {
    const { openHandoverDesk } = await import('./handover/desk.ts');
    return openHandoverDesk({ open: need, codec: () => readyCodec(appFolder), examine: examineOpen });
  },
);
expose({ ...desk, ...edit, ...time, ...handover } satisfies PictureDesk & EditDesk & TimeDesk & HandoverDesk);
