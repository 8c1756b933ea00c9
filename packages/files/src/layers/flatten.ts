import {
  largestDifference,
  layerCanvas,
  type Raster,
  reduceLayer,
  type Thinned,
  type Thinning,
  thinTree,
  throughNext,
} from '@halflight/engine';
import { bytesSource } from '../dossier/source.ts';
import { type OpenRaster, openOpenRaster } from '../openraster/open.ts';
import type { StoredLayerNode } from '../openraster/stack.ts';
import { type GroupDraft, type LayerDraft, writeOpenRaster } from '../openraster/write.ts';
import { FileTrouble } from '../trouble.ts';
import type { Codec } from '../types.ts';
import type { Gathered } from './gather.ts';
import { countLayers, type LayersHow, type Painter, paint, painterOf } from './paint.ts';
import { thumbnail } from './thumbnail.ts';

export interface Flattened {
  readonly bytes: Uint8Array<ArrayBuffer>;
  /** Layers that are left, hidden ones too. */
  readonly layers: number;
  /** Largest difference to the picture before, in code values of its depth. */
  readonly difference: number;
}

/** Nothing dropped, nothing merged: the file is written as it stands. */
export const KEEP_ALL: Thinning = { dropped: [], merged: [], through: null };

/**
 * The thinned picture as a layered file. Everything that is not named stays as it is, unknown attributes too. The
 * result is read back and put together again before anybody gets it: it may be by one code value another picture than
 * the one without what was dropped. Of layers
 * that do not hold that as they are made one, runs are made one in parts, and the bottom with what lies over it.
 *
 * @param thinned a stage of `flattenPlan` or anything like it, or only the runs that become one
 * @throws FileTrouble when what was written is another picture; the signal's reason when aborted
 */
export async function flatten(
  file: OpenRaster,
  gathered: Pick<Gathered, 'composite' | 'depth' | 'space' | 'profile'>,
  thinned: Thinning | Thinning['merged'],
  how: LayersHow,
): Promise<Flattened> {
  const thinning = 'merged' in thinned ? thinned : { ...KEEP_ALL, merged: thinned };
  const { codec, limitMegapixels } = how;
  const { depth, space } = gathered;
  const composite = await gathered.composite();
  const painter = painterOf(file, how);
  const put = async (nodes: readonly StoredLayerNode[], by: Painter): Promise<Raster> => {
    const canvas = layerCanvas(file.width, file.height);
    await paint(canvas, nodes, by);
    return canvas.raster(depth, space);
  };
  const meant = someSeen(file.nodes, new Set(thinning.dropped))
    ? await put(keptNodes(file.nodes, thinning.dropped), painter)
    : composite;
  const [merged, small] = [await png(codec, meant, gathered), await thumbnail(codec, meant)];
  for (let tried = thinning; ; ) {
    const tree = thinTree(file.nodes, tried);
    const bytes = await writeOpenRaster({
      width: file.width,
      height: file.height,
      attributes: file.attributes,
      root: { attributes: file.root, children: await drafts(tree, file, gathered, painter, codec) },
      merged,
      thumbnail: small,
    });
    const back = await openOpenRaster(bytesSource(bytes, file.name), limitMegapixels);
    const again = await put(back.nodes, painterOf(back, how));
    if (largestDifference(meant, again) <= 1)
      return { bytes, layers: countLayers(back.nodes), difference: largestDifference(composite, again) };
    const through = throughNext(file.nodes, tried);
    if (tried.merged.length > 0) tried = { ...tried, merged: halved(tried.merged) };
    else if (through !== null) tried = { ...tried, through };
    else
      throw new FileTrouble(
        'write',
        `“${file.name}” did not read back as it was meant.`,
        'Nothing was written; please tell the makers of Halflight.',
      );
  }
}

/** Each run in two: what does not hold as a whole may hold in parts. */
function halved(runs: Thinning['merged']): Thinning['merged'] {
  return runs.flatMap((run) => {
    const middle = run.length >> 1;
    return [run.slice(0, middle), run.slice(middle)].filter((half) => half.length > 1);
  });
}

/** Whether something visible is dropped. */
function someSeen(nodes: readonly StoredLayerNode[], dropped: ReadonlySet<string>): boolean {
  return nodes.some(
    (node) =>
      node.visible && (dropped.has(node.path) || (node.kind === 'group' && someSeen(node.children, dropped))),
  );
}

function keptNodes(nodes: readonly StoredLayerNode[], dropped: readonly string[]): StoredLayerNode[] {
  const kept = (tree: readonly Thinned<StoredLayerNode>[]): StoredLayerNode[] =>
    tree.flatMap((one) => (one.kind === 'one' ? one.members : [one.node]));
  return kept(thinTree(nodes, { ...KEEP_ALL, dropped }));
}

async function drafts(
  tree: readonly Thinned<StoredLayerNode>[],
  file: OpenRaster,
  gathered: Pick<Gathered, 'depth' | 'space' | 'profile'>,
  painter: Painter,
  codec: Codec,
): Promise<(LayerDraft | GroupDraft)[]> {
  const out: (LayerDraft | GroupDraft)[] = [];
  for (const one of tree) {
    if (one.kind === 'group')
      out.push({
        attributes: one.node.attributes,
        children: await drafts(one.children, file, gathered, painter, codec),
      });
    else if (one.kind === 'kept') {
      const node = one.node;
      if (node.kind === 'layer')
        out.push({ attributes: node.attributes, x: node.x, y: node.y, png: await file.layer(node) });
    } else {
      const canvas = layerCanvas(file.width, file.height);
      await paint(canvas, one.members, painter);
      const whole = { raster: canvas.raster(gathered.depth, gathered.space), x: 0, y: 0 };
      const { raster, x, y } = reduceLayer(whole, file, file);
      // Layers without any paint leave nothing to write.
      if (raster.width > 0)
        out.push({ attributes: { name: one.name }, x, y, png: await png(codec, raster, gathered) });
    }
  }
  return out;
}

/** A picture as PNG that carries the given profile. */
export async function png(
  codec: Codec,
  raster: Raster,
  { profile }: Pick<Gathered, 'profile'>,
): Promise<Uint8Array<ArrayBuffer>> {
  return new Uint8Array(await codec.encode(raster, { format: 'png', ...(profile ? { profile } : {}) }));
}
