/** The layered file of version 4: the painting, its air and light as layers, and what an evening's work leaves behind. */
import { type BlendMode, compositeStack, type PaintedLayer, SRGB } from '@halflight/engine';
import { writeOpenRaster } from '@halflight/files/openraster';
import sharp from 'sharp';

/** Layers that show nothing: forgotten while painting. */
export const FORGOTTEN = ['block-in', 'new layer', 'white wash', 'stroke that was tried'] as const;
/** Gradients for the same sky, of which one is to be chosen. */
export const ALTERNATIVES = ['evening gradient', 'evening gradient, greener'] as const;
/** What lies over the painting and is still turned up and down. */
export const EFFECTS = ['mist far', 'mist near', 'sky gradient', 'evening gradient', 'lamp glow'] as const;

/** Code values and alpha 0…255 at a place, both coordinates 0…1. */
type Paint = (u: number, v: number) => readonly [number, number, number, number];

interface Planned {
  readonly name: string;
  readonly paint: Paint | Uint8Array;
  readonly blend?: BlendMode;
  readonly opacity?: number;
  readonly visible?: boolean;
}

/** A soft hill, 1 at `at` and nearly 0 one `width` away. */
const hill = (v: number, at: number, width: number): number => Math.exp(-((2 * (v - at)) ** 2) / width ** 2);
/** 1 at the upper edge, 0 from `until` on. */
const fade = (v: number, until: number): number => Math.max(0, 1 - v / until);

function plan(painting: Uint8Array): Planned[] {
  return [
    { name: 'block-in', paint: (_, v) => [70, 70 + 40 * v, 110, 255] },
    { name: 'painting', paint: painting },
    { name: 'new layer', paint: () => [0, 0, 0, 0] },
    { name: 'mist far', paint: (_, v) => [150, 150, 185, 90 * hill(v, 0.45, 0.2)] },
    { name: 'white wash', paint: () => [255, 255, 255, 255], blend: 'multiply' },
    { name: 'mist near', paint: (u, v) => [128, 130, 165, 70 * hill(v, 0.75, 0.35) * (1 - 0.5 * u)] },
    { name: 'sky gradient', paint: (_, v) => [150, 150, 205, 140 * fade(v, 0.4)], blend: 'multiply' },
    { name: 'evening gradient', paint: (_, v) => [205, 125, 150, 85 * fade(v, 0.5)] },
    {
      name: 'evening gradient, greener',
      paint: (_, v) => [110, 165, 160, 85 * fade(v, 0.5)],
      visible: false,
    },
    {
      name: 'stroke that was tried',
      paint: (u, v) => [250, 200, 80, 255 * hill(v, 0.2 + 0.1 * u, 0.04)],
      opacity: 0,
    },
    {
      name: 'lamp glow',
      paint: (u, v) => [255, 190, 110, 110 * hill(u, 0.62, 0.3) * hill(v, 0.45, 0.4)],
      blend: 'screen',
    },
  ];
}

/**
 * The OpenRaster file.
 *
 * @param painting version 4, 8-bit sRGB, interleaved, three channels
 */
export async function layeredFile(painting: Uint8Array, width: number, height: number): Promise<Uint8Array> {
  const layers = plan(painting).map((one): PaintedLayer => {
    const channels = one.paint instanceof Uint8Array ? 3 : 4;
    const data = one.paint instanceof Uint8Array ? one.paint : fill(one.paint, width, height);
    return {
      kind: 'layer',
      path: one.name,
      name: one.name,
      visible: one.visible ?? true,
      opacity: one.opacity ?? 1,
      blend: one.blend ?? 'normal',
      operator: 'source-over',
      x: 0,
      y: 0,
      raster: { width, height, channels, depth: 8, data, space: SRGB },
    };
  });
  const png = async (data: Uint8Array, channels: 3 | 4): Promise<Uint8Array<ArrayBuffer>> =>
    new Uint8Array(
      await sharp(data, { raw: { width, height, channels } }).png().withIccProfile('srgb').toBuffer(),
    );
  const children = [];
  for (const { name, visible, opacity, blend, x, y, raster } of layers)
    children.push({
      attributes: {
        name,
        opacity: String(opacity),
        visibility: visible ? 'visible' : 'hidden',
        'composite-op': blend === 'normal' ? 'svg:src-over' : `svg:${blend}`,
      },
      x,
      y,
      png: await png(raster.data as Uint8Array, raster.channels),
    });
  const whole = compositeStack({ width, height, nodes: layers }, 8, SRGB);
  const merged = await png(whole.data as Uint8Array, 4);
  const thumbnail = new Uint8Array(await sharp(merged).resize(256, 256, { fit: 'inside' }).png().toBuffer());
  return writeOpenRaster({ width, height, root: { attributes: {}, children }, merged, thumbnail });
}

function fill(paint: Paint, width: number, height: number): Uint8Array {
  const data = new Uint8Array(4 * width * height);
  for (let y = 0, i = 0; y < height; y++)
    for (let x = 0; x < width; x++, i += 4) {
      const [r, g, b, a] = paint(x / width, y / height);
      data[i] = Math.round(r);
      data[i + 1] = Math.round(g);
      data[i + 2] = Math.round(b);
      data[i + 3] = Math.round(a);
    }
  return data;
}
