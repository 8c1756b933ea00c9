import type { LayerNode, PaintedLayer } from './stack.ts';

/**
 * What a part of a layered picture is: `paint` that can become one with what it lies on, an `effect` that stays
 * apart because it is still turned up and down (fog, gradient, light), or a group with `both`.
 */
export type PartKind = 'paint' | 'effect' | 'both';

/** Share of a layer's places that must let what is below through ("our default"). */
const SEMI_SHARE = 0.5;
/** Alpha below which a place counts as letting it through ("our default"). */
const SEMI = 0.9;
/** Mean change from pixel to pixel, of the full range, at a long side of 900 px, below which it is soft ("our default"). */
const SOFT = 0.02;

/**
 * @param backed share of its paint that lies over something
 * @param longSide of the size at which the layers are given
 */
export function kindOf(node: LayerNode, backed: (node: LayerNode) => number, longSide: number): PartKind {
  const special = node.blend !== 'normal' || node.operator !== 'source-over';
  if (special) return 'effect';
  if (node.kind === 'layer') return backed(node) >= 0.5 && isGlaze(node, longSide) ? 'effect' : 'paint';
  const kinds = new Set(
    node.children.filter((child) => child.visible).map((child) => kindOf(child, backed, longSide)),
  );
  if (kinds.size === 0) return 'paint';
  return kinds.size === 1 ? [...kinds][0] : 'both';
}

/** Thin and soft: most of it lets through, and it hardly changes from one place to the next. */
function isGlaze({ raster, opacity }: PaintedLayer, longSide: number): boolean {
  const { width, height, channels, data, depth } = raster;
  const full = 2 ** depth - 1;
  const thin = (SEMI * full) / opacity;
  let [places, semi] = [0, 0];
  for (let i = 0; i < data.length; i += channels) {
    const code = channels === 4 ? data[i + 3] : full;
    if (code === 0) continue;
    places++;
    if (code < thin) semi++;
  }
  if (opacity === 0 || places === 0 || semi < SEMI_SHARE * places) return false;
  const reach = channels * width;
  const scale = opacity / full;
  let [change, steps] = [0, 0];
  for (let y = 0; y < height; y++)
    for (let x = 0, i = reach * y; x < width; x++, i += channels) {
      const a = (channels === 4 ? data[i + 3] : full) * scale;
      if (a === 0) continue;
      for (const j of [x + 1 < width ? i + channels : -1, y + 1 < height ? i + reach : -1]) {
        if (j < 0) continue;
        const b = (channels === 4 ? data[j + 3] : full) * scale;
        let most = Math.abs(a - b);
        for (let c = 0; c < 3; c++) {
          const colour = Math.abs(a * data[i + c] - b * data[j + c]) / full;
          if (colour > most) most = colour;
        }
        change += most;
        steps++;
      }
    }
  return (change / Math.max(1, steps)) * (longSide / 900) < SOFT;
}
