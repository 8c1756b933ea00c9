import { layerCanvas, type Raster, reduceLayer } from '@halflight/engine';
import { bytesSource } from '../dossier/source.ts';
import { type OpenRaster, openOpenRaster } from '../openraster/open.ts';
import type { StoredLayerNode } from '../openraster/stack.ts';
import { type GroupDraft, type LayerDraft, writeOpenRaster } from '../openraster/write.ts';
import { FileTrouble } from '../trouble.ts';
import type { Codec } from '../types.ts';
import { largestDifference } from './compare.ts';
import type { Gathered } from './gather.ts';
import { countLayers, type LayersHow, type Painter, paint, painterOf } from './paint.ts';
import { thumbnail } from './thumbnail.ts';

type Paths = readonly (readonly string[])[];

export interface Flattened {
  readonly bytes: Uint8Array;
  /** Layers that are left, hidden ones too. */
  readonly layers: number;
  /** Largest difference to the picture before, in code values. */
  readonly difference: number;
}

/**
 * The picture with every run of painted neighbours made one layer. Effects and hidden layers stay as they are. The
 * result is read back and put together again before anybody gets it.
 *
 * @throws FileTrouble when even the smallest step would change the picture; the signal's reason when aborted
 */
export async function flatten(
  file: OpenRaster,
  gathered: Gathered,
  merges: Paths,
  how: LayersHow,
): Promise<Flattened> {
  const { codec, limitMegapixels } = how;
  const painter = painterOf(file, how);
  for (let runs = merges; ; runs = halved(runs)) {
    const root = {
      attributes: file.root,
      children: await thin(file.nodes, runs, file, gathered, painter, codec),
    };
    const bytes = await writeOpenRaster({
      width: file.width,
      height: file.height,
      attributes: file.attributes,
      root,
      merged: await png(codec, gathered.composite, gathered),
      thumbnail: await thumbnail(codec, gathered.composite),
    });
    const back = await openOpenRaster(bytesSource(bytes, file.name), limitMegapixels);
    const canvas = layerCanvas(file.width, file.height);
    await paint(canvas, back.nodes, painterOf(back, how));
    const difference = largestDifference(gathered.composite, canvas.raster(gathered.depth, gathered.space));
    if (difference <= 1) return { bytes, layers: countLayers(back.nodes), difference };
    if (runs.length === 0)
      throw new FileTrouble(
        'write',
        `“${file.name}” did not read back as it was meant.`,
        'Nothing was written; please tell the makers of Halflight.',
      );
  }
}

/** Each run in two: what does not hold as a whole may hold in parts. */
function halved(runs: Paths): Paths {
  return runs.flatMap((run) => {
    const middle = run.length >> 1;
    return [run.slice(0, middle), run.slice(middle)].filter((half) => half.length > 1);
  });
}

async function thin(
  nodes: readonly StoredLayerNode[],
  merges: Paths,
  file: OpenRaster,
  gathered: Gathered,
  painter: Painter,
  codec: Codec,
): Promise<(LayerDraft | GroupDraft)[]> {
  const out: (LayerDraft | GroupDraft)[] = [];
  for (const node of nodes) {
    const run = node.visible ? merges.find((paths) => paths.includes(node.path)) : undefined;
    if (run && node.path !== run[0]) continue;
    if (run) {
      const canvas = layerCanvas(file.width, file.height);
      await paint(
        canvas,
        nodes.filter(({ path }) => run.includes(path)),
        painter,
      );
      const whole = { raster: canvas.raster(gathered.depth, gathered.space), x: 0, y: 0 };
      const { raster, x, y } = reduceLayer(whole, file, file);
      // A run without any paint leaves nothing to write.
      if (raster.width > 0)
        out.push({ attributes: { name: node.name }, x, y, png: await png(codec, raster, gathered) });
    } else if (node.kind === 'layer')
      out.push({
        attributes: node.attributes,
        x: node.x,
        y: node.y,
        png: new Uint8Array(await file.layer(node)),
      });
    else
      out.push({
        attributes: node.attributes,
        children: await thin(node.children, merges, file, gathered, painter, codec),
      });
  }
  return out;
}

async function png(
  codec: Codec,
  raster: Raster,
  { profile }: Pick<Gathered, 'profile'>,
): Promise<Uint8Array<ArrayBuffer>> {
  return new Uint8Array(await codec.encode(raster, { format: 'png', ...(profile ? { profile } : {}) }));
}
