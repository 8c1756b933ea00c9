import { isLocal, type Meet, meeting } from './meet.ts';
import type { LayerNode, PaintedLayer } from './stack.ts';

/**
 * One step of putting a picture together at a place. `open` and `close` enclose what is put together on its own and
 * then meets what is below.
 */
export interface Act {
  readonly kind: 'draw' | 'open' | 'close';
  /** The visible layer or group that it belongs to, as an index into the parts. */
  readonly part: number;
  readonly node: LayerNode;
  readonly layer: PaintedLayer | null;
  readonly meet: Meet | null;
  /** Where nothing is painted this step changes nothing. */
  readonly local: boolean;
}

/** A visible node and the steps `from` up to, without, `to` that it is made of. */
export interface Part {
  readonly node: LayerNode;
  readonly from: number;
  readonly to: number;
  /** The group it is in, as an index into the parts; −1 at the bottom. */
  readonly parent: number;
}

export interface Program {
  readonly acts: readonly Act[];
  /** Groups stand before their children. */
  readonly parts: readonly Part[];
}

/** The steps of all visible layers, in order. */
export function programOf(nodes: readonly LayerNode[]): Program {
  const acts: Act[] = [];
  const parts: Part[] = [];
  const add = (list: readonly LayerNode[], parent: number): void => {
    for (const node of list) {
      if (!node.visible) continue;
      const from = acts.length;
      const part = parts.length;
      parts.push({ node, from, to: from, parent });
      const local = isLocal(node.operator);
      const shared = { part, node, local };
      if (node.kind === 'layer') acts.push({ ...shared, kind: 'draw', layer: node, meet: meeting(node) });
      else if (node.isolated) {
        acts.push({ ...shared, kind: 'open', layer: null, meet: null, local: true });
        add(node.children, part);
        acts.push({ ...shared, kind: 'close', layer: null, meet: meeting(node) });
      } else add(node.children, part);
      parts[part] = { node, from, to: acts.length, parent };
    }
  };
  add(nodes, -1);
  return { acts, parts };
}
