import { gather, weigh } from '@halflight/files/layers';
import { openCodec } from '@halflight/files/node';
import type { OpenRaster } from '@halflight/files/openraster';
import { stackOfPictures } from '@halflight/files/openraster';
import sharp from 'sharp';
import type { Figure } from '../figure.ts';
import { race } from '../time.ts';

const SIZE = { width: 4000, height: 3000 };
/** As many as the aim is about. */
const COUNT = 100;

/** Layers of 12 megapixels put together, reduced and weighed, against decoding each once. */
export async function layersRows(): Promise<Figure[]> {
  const file = await hundred();
  const codec = await openCodec();
  const how = { codec, limitMegapixels: 100 };
  const best = await race(1, {
    decode: async () => {
      for (const node of file.nodes)
        if (node.kind === 'layer')
          await codec.decode(await file.layer(node), { name: node.name, limitMegapixels: 100 });
    },
    read: async () => {
      await weigh(await gather(file, how));
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

/**
 * A ground, then by turns spots (2 % of the canvas), strokes that thin out (a quarter) and glazes (all of it), and a fog
 * over them. Layers of a kind share few PNGs, laid elsewhere each time, so that making them ends.
 */
async function hundred(): Promise<OpenRaster> {
  const pngs = new Map<string, Uint8Array<ArrayBuffer>>();
  const pngOf = async (kind: Kind, seed: number): Promise<Uint8Array<ArrayBuffer>> => {
    const key = `${kind} ${seed}`;
    const png = pngs.get(key) ?? (await painted(kind, seed));
    pngs.set(key, png);
    return png;
  };
  const kinds: Kind[] = ['spots', 'strokes', 'glaze'];
  const pictures = [];
  for (let i = 0; i < COUNT; i++) {
    const kind = i === 0 ? 'ground' : i === COUNT - 1 ? 'fog' : kinds[i % 3];
    pictures.push({ name: `${i}`, bytes: await pngOf(kind, i % 9) });
  }
  const file = stackOfPictures('hundred', pictures);
  const nodes = file.nodes.map((node, i) =>
    node.kind === 'layer' && i % 3 !== 2 && i > 0 && i < COUNT - 1
      ? { ...node, x: 37 * ((i * 7) % 60) - 1100, y: 29 * ((i * 11) % 60) - 800 }
      : node,
  );
  return { ...file, nodes };
}

type Kind = 'ground' | 'spots' | 'strokes' | 'glaze' | 'fog';

async function painted(kind: Kind, seed: number): Promise<Uint8Array<ArrayBuffer>> {
  const { width, height } = SIZE;
  const data = new Uint8Array(4 * width * height);
  let chance = seed + 1;
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      chance = (Math.imul(chance, 1664525) + 1013904223) >>> 0;
      const alpha = ALPHA[kind](x, y, seed);
      if (alpha === 0) continue;
      const grain = kind === 'glaze' || kind === 'fog' ? 0 : chance >>> 28;
      const at = 4 * (y * width + x);
      data[at] = 60 + 15 * seed + grain;
      data[at + 1] = 90 + (80 * y) / height + grain;
      data[at + 2] = 120 + (60 * x) / width;
      data[at + 3] = alpha;
    }
  return new Uint8Array(
    await sharp(data, { raw: { width, height, channels: 4 } })
      .png({ compressionLevel: 3 })
      .toBuffer(),
  );
}

const ALPHA: Readonly<Record<Kind, (x: number, y: number, seed: number) => number>> = {
  ground: () => 255,
  fog: (_, y) => Math.round((120 * y) / SIZE.height),
  glaze: (x, y, seed) => 6 + Math.round(6 * Math.sin(x / 900 + seed) * Math.cos(y / 700)),
  strokes: (x, y) =>
    x > 1000 && x < 3000 && y > 750 && y < 2250 ? Math.round(180 * Math.abs(Math.sin(x / 40 + y / 90))) : 0,
  spots: (x, y, seed) => (Math.hypot((x % 800) - 400, (y % 800) - 400 - 9 * seed) < 64 ? 255 : 0),
};
