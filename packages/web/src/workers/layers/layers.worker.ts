import '../../offline/guard.ts';
import {
  type ColourSpace,
  findNode,
  type LayerNode,
  type LayerReading,
  type LayerStack,
  type LayersReading,
  layerSweep,
  optionPictures,
  type PictureFacts,
  type Raster,
  reduceLayer,
  smallStack,
  sweepAxes,
  thinStack,
} from '@halflight/engine';
import { breathe, type Codec } from '@halflight/files';
import {
  flatten,
  gather,
  mergedNotes,
  planStages,
  readPair,
  weigh,
  weighDeeds,
} from '@halflight/files/layers';
import { bytesSource, type OpenRaster, openOpenRaster, stackOfPictures } from '@halflight/files/openraster';
import { expose, transfer } from 'comlink';
import type { Choices } from '../../document/layers.ts';
import type { ScreenSpace } from '../../picture/desk.ts';
import { decodePicture, readyCodec } from '../picture/decode.ts';
import { LIMIT } from '../picture/layered.ts';
import { decidedFile, decidedNodes, decidedReading } from './choices.ts';
import type { LayerSource, LayersDesk, ReadPicture } from './desk.ts';
import { bitmapOf, bitmapOfView, differenceOf, type Looker, openLooker } from './look.ts';
import { layersOf, listed, nameOfPictures, onCanvas, seenOf, withNumbers } from './seen.ts';

/** What is held of a picture whose layers were read. */
interface Held {
  readonly stack: LayerStack;
  readonly depth: 8 | 16;
  readonly space: ColourSpace;
  readonly profile: Uint8Array | null;
  readonly looker: Looker;
  /** What the layers are worth, with maps, once they were weighed. */
  readonly reading: LayersReading | null;
}

/** Long side of the small pictures of a sheet. */
const SMALL = 720;
const SWEPT = 320;

let app = { base: '', screen: 'srgb' as ScreenSpace };
let source: LayerSource | null = null;
let file: OpenRaster | null = null;
let held: Held | null = null;
/** The one layer that two flat pictures tell of. */
let pair: { readonly raster: Raster; readonly reading: LayerReading } | null = null;
/** The flat picture of pictures, at the size of the close view. */
let flat: { readonly of: Blob; readonly raster: Raster } | null = null;
/** Only the last plan is made to its end. */
let planning = new AbortController();
let running = new AbortController();
/** Counts sheets: one that was closed or followed by another is not made any further. */
let sheets = 0;

const desk: LayersDesk = {
  async begin(base, screen) {
    app = { base, screen };
  },

  async open(next) {
    source = next;
    file = null;
    held = null;
    pair = null;
    if (next.kind === 'pair') return null;
    file = await fileOf(next);
    return listed(file);
  },

  async read(each) {
    const signal = begin();
    if (source?.kind === 'pair') return readTwo(source);
    const from = needFile();
    const how = { codec: await codec(), limitMegapixels: LIMIT, signal };
    const gathered = await gather(from, how, ({ path }) => each(path));
    const { stack, depth, space, profile } = gathered;
    held = { stack, depth, space, profile, looker: openLooker(stack, space), reading: null };
    const given = source?.kind === 'pictures';
    const notes = given ? gathered.notes : [...gathered.notes, ...(await mergedNotes(from, gathered, how))];
    const { name, width, height } = from;
    const facts: PictureFacts = {
      name,
      width,
      height,
      depth,
      profile: space.name,
      tagged: profile !== null,
    };
    const bitmap = await bitmapOf(held.looker.composite(stack.nodes), app.screen);
    return transfer<ReadPicture>({ facts, bitmap, notes }, [bitmap]);
  },

  async arrange(next) {
    const before = need();
    const painted = new Map(layersOf(before.stack.nodes).map((layer) => [layer.name, layer]));
    source = next;
    file = await fileOf(next);
    const nodes = file.nodes.flatMap((node): LayerNode[] => {
      const layer = painted.get(node.name);
      return layer && node.kind === 'layer'
        ? [{ ...node, raster: layer.raster, x: layer.x, y: layer.y }]
        : [];
    });
    held = { ...before, stack: { ...before.stack, nodes }, reading: null };
    return listed(file);
  },

  async weigh(choices, given, progress) {
    const signal = begin();
    if (pair) return seenOf({ layers: [pair.reading], options: [], merges: [] }, new Map());
    const tell = (share: number): void =>
      progress({ doing: 'Taking each layer away and looking', share: 0.9 * share });
    const { stack, depth, space, reading: known } = need();
    const before = known ?? given;
    const decided = { ...stack, nodes: decidedNodes(stack.nodes, choices) };
    const now = await weigh({ stack: decided, depth, space }, { signal, onProgress: tell });
    // What is held may be another picture by now.
    signal.throwIfAborted();
    const reading = before === null ? now : withNumbers(before, now);
    held = { ...need(), reading };
    const tellDeeds = (share: number): void =>
      progress({ doing: 'Asking what each does to mood, hues and headroom', share: 0.9 + 0.1 * share });
    return seenOf(reading, await weighDeeds(reading, { signal, onProgress: tellDeeds }));
  },

  async look({ choices, turned }) {
    const { stack, looker } = need();
    return shown(looker.composite(decidedNodes(stack.nodes, choices, turned)));
  },

  async flatDifference() {
    if (source?.kind !== 'pictures' || source.flat === null) return null;
    const { stack, looker } = need();
    const raster = await flatAt(source.flat, stack);
    const difference = differenceOf(looker.composite(stack.nodes), raster);
    return transfer(difference, [difference.map.data.buffer]);
  },

  async options(set, choices, intent, each) {
    const mine = ++sheets;
    const { stack, space } = need();
    // The whole set is shown, whatever was decided about it.
    const before = { ...choices, chosen: choices.chosen.filter((one) => !one.set.includes(set[0])) };
    const small = smallStack({ ...stack, nodes: decidedNodes(stack.nodes, before) }, SMALL);
    let index = 0;
    for (const { view, distance } of optionPictures(small, space, set, intent ?? undefined)) {
      const bitmap = await bitmapOfView(view, app.screen);
      each(transfer({ index: index++, bitmap, distance }, [bitmap]));
      await breathe();
      if (mine !== sheets) return;
    }
  },

  async sweepAxes(path, choices) {
    return sweepAxes(unsettled(path, choices).node);
  },

  async sweep(path, choices, intent, each) {
    const mine = ++sheets;
    const { stack } = unsettled(path, choices);
    const small = smallStack(stack, SWEPT);
    let index = 0;
    for (const { view, distance } of layerSweep(small, need().space, path, intent ?? undefined)) {
      const bitmap = await bitmapOfView(view, app.screen);
      each(transfer({ index: index++, bitmap, distance }, [bitmap]));
      await breathe();
      if (mine !== sheets) return;
    }
  },

  async plan(choices, reading) {
    planning.abort();
    planning = new AbortController();
    const { signal } = planning;
    const { stack, depth, space } = need();
    const decided = { ...stack, nodes: decidedNodes(stack.nodes, choices) };
    const small = { stack: decided, depth, space };
    return planStages(small, decidedReading(reading, choices), { signal }).catch((error: unknown) => {
      if (signal.aborted) return null;
      throw error;
    });
  },

  async lookMerged(paths, choices) {
    const { stack, depth, space, looker } = need();
    const nodes = decidedNodes(stack.nodes, choices);
    const before = looker.composite(nodes);
    const thinning = { dropped: [], merged: [paths], through: null };
    const after = looker.composite(thinStack({ ...stack, nodes }, thinning, depth, space).nodes);
    const difference = differenceOf(before, after);
    const bitmap = await bitmapOf(after, app.screen);
    return transfer({ bitmap, difference }, [bitmap, difference.map.data.buffer]);
  },

  async write(choices, thinning, name, progress) {
    const signal = begin();
    try {
      const from = needFile();
      const how = { codec: await codec(), limitMegapixels: LIMIT, signal, along: true };
      const decided = { ...decidedFile(from, choices, how), name };
      const count = layersOf(need().stack.nodes).length;
      let read = 0;
      progress({ doing: 'Putting the layers together', share: 0 });
      const gathered = await gather(decided, how, () =>
        progress({ doing: 'Putting the layers together', share: (0.5 * ++read) / count }),
      );
      progress({ doing: 'Writing the layers and reading them back', share: null });
      const { bytes } = await flatten(
        decided,
        gathered,
        { ...thinning, dropped: [...thinning.dropped, ...choices.dropped] },
        how,
      );
      const blob = new Blob([bytes], { type: 'image/openraster' });
      return { blob, name, readBack: true };
    } catch (error) {
      if (signal.aborted) return null;
      throw error;
    }
  },

  async closeSheet() {
    sheets++;
  },

  async stop() {
    running.abort();
  },
};

function begin(): AbortSignal {
  running.abort();
  running = new AbortController();
  return running.signal;
}

function codec(): Promise<Codec> {
  return readyCodec(app.base);
}

function need(): Held {
  if (held === null) throw new Error('The layers have not been read yet.');
  return held;
}

function needFile(): OpenRaster {
  if (file === null) throw new Error('No layered picture is open.');
  return file;
}

async function fileOf(from: Exclude<LayerSource, { kind: 'pair' }>): Promise<OpenRaster> {
  if (from.kind === 'file') return openOpenRaster(bytesSource(await bytesOf(from.file), from.name), LIMIT);
  const pictures = await Promise.all(
    from.pictures.map(async ({ file: blob, ...how }) => ({ ...how, bytes: await bytesOf(blob) })),
  );
  const name = `${nameOfPictures(from)}.ora`;
  return stackOfPictures(name, pictures, null, LIMIT);
}

/** The layers before one of them was settled, and that one. */
function unsettled(path: string, choices: Choices): { stack: LayerStack; node: LayerNode } {
  const { stack } = need();
  const before = { ...choices, settled: choices.settled.filter((one) => one.path !== path) };
  const nodes = decidedNodes(stack.nodes, before);
  const node = findNode(nodes, path);
  if (node === null) throw new Error(`The layer “${path}” was taken away.`);
  return { stack: { ...stack, nodes }, node };
}

async function bytesOf(blob: Blob): Promise<Uint8Array<ArrayBuffer>> {
  return new Uint8Array(await blob.arrayBuffer());
}

async function readTwo({
  shown: over,
  without,
}: Extract<LayerSource, { kind: 'pair' }>): Promise<ReadPicture> {
  const quiet = (): void => undefined;
  const one = await decodePicture(over.file, over.name, app.base, quiet);
  const other = await decodePicture(without.file, without.name, app.base, quiet);
  const { raster } = one;
  const reading = readPair({ name: over.name, raster }, { name: without.name, raster: other.raster });
  pair = { raster, reading };
  const bitmap = await bitmapOf(raster, app.screen, 1600);
  return transfer({ facts: one.facts, bitmap, notes: [] }, [bitmap]);
}

async function flatAt(
  { file: of, name }: { readonly file: Blob; readonly name: string },
  size: LayerStack,
): Promise<Raster> {
  if (flat?.of === of) return flat.raster;
  const { raster } = await (await codec()).decode(await bytesOf(of), { name, limitMegapixels: LIMIT });
  const { width, height } = needFile();
  if (raster.width !== width || raster.height !== height)
    throw new Error(
      `“${name}” is ${raster.width} × ${raster.height} pixels large and the layers ${width} × ${height}: it can’t be held against them. Export it in their size.`,
    );
  const small = reduceLayer({ raster, x: 0, y: 0 }, raster, size);
  flat = { of, raster: onCanvas(small, size) };
  return flat.raster;
}

async function shown(raster: Raster): Promise<ImageBitmap> {
  const bitmap = await bitmapOf(raster, app.screen);
  return transfer(bitmap, [bitmap]);
}

expose(desk);
