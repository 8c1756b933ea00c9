import type { ColourSpace } from '../colour/space.ts';
import { readyRecipe } from '../edits/compile.ts';
import { rowEditor } from '../edits/editRows.ts';
import { EMPTY_RECIPE } from '../edits/step.ts';
import type { Intent } from '../intent/intent.ts';
import { makeCloseView } from '../views/average.ts';
import type { Raster } from '../views/raster.ts';
import type { View } from '../views/view.ts';
import { compositeStack } from './canvas.ts';
import { measureSmall, type SmallMeasures } from './measures.ts';
import type { LayerNode, LayerStack } from './stack.ts';
import { asOne } from './thin.ts';

/** Degrees of OKLCh by which a layer's hues are turned, from left to right. Our default. */
const TURNS = [-90, -45, -20, 0, 20, 45, 90];
/** Rows of a sheet. */
const ROWS = 4;
/** Difference of code values, of the full range, up to which a colour has no hue to turn. */
const GREY = 0.02;

/** A hue turn in degrees and an opacity of 0…1. */
export interface LayerSetting {
  readonly turn: number;
  readonly opacity: number;
}

export interface SweepCell extends LayerSetting, SmallMeasures {
  readonly column: number;
  readonly row: number;
  readonly view: View;
}

/** The settings that are tried about where a layer stands: hues across, strength down; grey layers have no hue to turn. */
export function sweepAxes(node: LayerNode): { turns: readonly number[]; opacities: readonly number[] } {
  const { opacity } = node;
  const opacities =
    opacity >= 0.9 || opacity <= 0.05
      ? Array.from({ length: ROWS }, (_, k) => (k + 1) / ROWS)
      : [opacity / 2, opacity, (1 + opacity) / 2, 1];
  return { turns: hasHue(node) ? TURNS : [0], opacities };
}

/**
 * Small pictures of the whole with one layer's hue turned and its strength changed, with the distance of each from the
 * intended mood; stop asking to cancel.
 *
 * @param small as small as the pictures are to be (`smallStack`)
 * @param path of the layer or group
 * @throws RangeError when there is none of that path
 */
export function* layerSweep(
  small: LayerStack,
  space: ColourSpace,
  path: string,
  intent?: Intent,
): Generator<SweepCell, void> {
  const at = small.nodes.findIndex((node) => findNode([node], path));
  if (at < 0) throw new RangeError(`there is no layer “${path}”`);
  // What lies below stays the same in every picture.
  const below = small.nodes.slice(0, at);
  const base = asOne('', '', { ...small, nodes: below }, 16, space);
  const { turns, opacities } = sweepAxes(findNode(small.nodes, path)!);
  const turned = turns.map((turn) => turnNodes(small.nodes.slice(at), path, turn));
  for (const [row, opacity] of opacities.entries())
    for (const [column, turn] of turns.entries()) {
      const nodes = [base, ...setNodes(turned[column], path, opacity)];
      const view = makeCloseView(compositeStack({ ...small, nodes }, 16, space));
      yield { column, row, turn, opacity, view, ...measureSmall(view, intent) };
    }
}

/** A layer's pixels with their hues turned (OKLCh; lightness and chroma stay, held in the gamut); alpha stays. */
export function turnHues(raster: Raster, degrees: number): Raster {
  if (degrees === 0) return raster;
  const step = { kind: 'hueTurn', on: true, strength: 1, values: { degrees } } as const;
  const data = new (raster.depth === 8 ? Uint8Array : Uint16Array)(raster.data.length);
  const { space, depth } = raster;
  rowEditor(readyRecipe({ ...EMPTY_RECIPE, steps: [step] }, null), raster, { space, depth })(
    0,
    raster.height,
    data,
  );
  return { ...raster, data };
}

/** The layer or group of a path; null when there is none. */
export function findNode(nodes: readonly LayerNode[], path: string): LayerNode | null {
  for (const node of nodes) {
    if (node.path === path) return node;
    const inside = node.kind === 'group' ? findNode(node.children, path) : null;
    if (inside) return inside;
  }
  return null;
}

function turnNodes(nodes: readonly LayerNode[], path: string | null, turn: number): LayerNode[] {
  return nodes.map((node) => {
    const inside = path === null || node.path === path;
    if (node.kind === 'group')
      return { ...node, children: turnNodes(node.children, inside ? null : path, turn) };
    return inside ? { ...node, raster: turnHues(node.raster, turn) } : node;
  });
}

function setNodes(nodes: readonly LayerNode[], path: string, opacity: number): LayerNode[] {
  return nodes.map((node) => {
    if (node.path === path) {
      // A group that is thinned is put together on its own first.
      const isolated = node.kind === 'group' ? { isolated: node.isolated || opacity < 1 } : {};
      return { ...node, ...isolated, opacity, visible: true };
    }
    return node.kind === 'group' ? { ...node, children: setNodes(node.children, path, opacity) } : node;
  });
}

function hasHue(node: LayerNode): boolean {
  if (node.kind === 'group') return node.children.some(hasHue);
  const { data, channels, depth } = node.raster;
  const most = GREY * (2 ** depth - 1);
  for (let i = 0; i < data.length; i += channels) {
    if (channels === 4 && data[i + 3] === 0) continue;
    const [r, g, b] = [data[i], data[i + 1], data[i + 2]];
    if (Math.max(r, g, b) - Math.min(r, g, b) > most) return true;
  }
  return false;
}
