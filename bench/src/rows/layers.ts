import {
  CLOSE_PIXELS,
  layerCanvas,
  type PaintedLayer,
  readLayers,
  reduceLayer,
  weighingSize,
} from '@halflight/engine';
import { openCodec } from '@halflight/files/node';
import sharp from 'sharp';
import type { Figure } from '../figure.ts';
import { race } from '../time.ts';

const SIZE = { width: 4000, height: 3000 };
/** Fewer than a painter keeps, so that it ends: time grows with their number on both sides. */
const COUNT = 8;

/** Layers of 12 megapixels read and weighed, against decoding each once: a ground, strokes on parts, a fog over all. */
export async function layersRows(): Promise<Figure[]> {
  const pngs: Uint8Array[] = [];
  for (let i = 0; i < COUNT; i++) pngs.push(await painted(i));
  const codec = await openCodec();
  const decode = async (i: number) =>
    (await codec.decode(pngs[i], { name: `layer ${i}`, limitMegapixels: 100 })).raster;
  const small = weighingSize(SIZE.width, SIZE.height, CLOSE_PIXELS);
  const best = await race(1, {
    decode: async () => {
      for (let i = 0; i < COUNT; i++) await decode(i);
    },
    read: async () => {
      const canvas = layerCanvas(SIZE.width, SIZE.height);
      const nodes: PaintedLayer[] = [];
      for (let i = 0; i < COUNT; i++) {
        const raster = await decode(i);
        const how = { visible: true, blend: 'normal', operator: 'source-over', opacity: 1 } as const;
        canvas.draw({ ...how, raster, x: 0, y: 0 });
        nodes.push({
          ...how,
          kind: 'layer',
          path: `${i}`,
          name: `${i}`,
          ...reduceLayer({ raster, x: 0, y: 0 }, SIZE, small),
        });
      }
      readLayers({ ...small, nodes }, 8, nodes[0].raster.space);
    },
  });
  codec.close();
  return [
    {
      what: `${COUNT} layers of 12 MP read and weighed`,
      value: best.read,
      unit: 'ms',
      reference: { what: 'decoding each once', value: best.decode },
      goal: 1.5,
    },
  ];
}

/** The lowest is a ground, the highest a fog, the others strokes on a quarter of the canvas. */
async function painted(i: number): Promise<Uint8Array> {
  const { width, height } = SIZE;
  const data = new Uint8Array(4 * width * height);
  let seed = i + 1;
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
      const inside = (x * 2 + i * 500) % (2 * width) < width && (y * 2 + i * 300) % (2 * height) < height;
      const alpha = i === 0 ? 255 : i === COUNT - 1 ? Math.round((120 * y) / height) : inside ? 255 : 0;
      if (alpha === 0) continue;
      const grain = seed >>> 28;
      data.set(
        [60 + 15 * i + grain, 90 + (80 * y) / height + grain, 120 + (60 * x) / width, alpha],
        4 * (y * width + x),
      );
    }
  return new Uint8Array(
    await sharp(data, { raw: { width, height, channels: 4 } })
      .png({ compressionLevel: 3 })
      .toBuffer(),
  );
}
