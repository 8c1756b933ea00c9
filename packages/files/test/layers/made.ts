import sharp from 'sharp';
import { bytesSource, type OpenRaster, openOpenRaster, writeOpenRaster } from '../../src/openraster/index.ts';

export const [WIDTH, HEIGHT] = [60, 40];
type Paint = (x: number, y: number) => readonly number[];

/** A layer as PNG, painted place by place in four codes. */
export async function painted(
  paint: Paint,
  width = WIDTH,
  height = HEIGHT,
): Promise<Uint8Array<ArrayBuffer>> {
  const data = Buffer.from(
    Array.from({ length: width * height }, (_, p) => [...paint(p % width, Math.floor(p / width))]).flat(),
  );
  const raw = { width, height, channels: 4 } as const;
  return new Uint8Array(await sharp(data, { raw }).png().toBuffer());
}

const fog =
  (red: number): Paint =>
  (_, y) => [red, 150, 150, 3 * y];

/** A landing: ground, reeds on it, a dusk in two versions, a forgotten layer and a glow over all. */
export async function landing(): Promise<OpenRaster> {
  const layer = async (name: string, paint: Paint, more: Record<string, string> = {}) => ({
    attributes: { name, ...more },
    x: 0,
    y: 0,
    png: await painted(paint),
  });
  const merged = await painted(() => [0, 0, 0, 255]);
  const bytes = await writeOpenRaster({
    width: WIDTH,
    height: HEIGHT,
    root: {
      attributes: {},
      children: [
        await layer('ground', (x, y) => [80 + x, 90 + ((x * 7 + y * 13) % 9), 140 + y, 255]),
        await layer('reeds', (x, y) => [30, 60, (x * 31 + y * 17) % 80, x > 20 && y > 20 ? 255 : 0]),
        await layer('dusk', fog(150)),
        await layer('dusk, warmer', fog(230), { visibility: 'hidden', 'own:mark': 'kept' }),
        await layer('forgotten', () => [255, 255, 255, 255], { 'composite-op': 'svg:multiply' }),
        await layer('glow', (x) => [255, 190, 110, 2 * x], { opacity: '0.5' }),
      ],
    },
    merged,
    thumbnail: merged,
  });
  return openOpenRaster(bytesSource(bytes, 'landing.ora'));
}

/** The raw codes of a PNG, four channels. */
export async function codesOf(png: Uint8Array): Promise<Uint8Array> {
  return new Uint8Array(await sharp(Buffer.from(png)).ensureAlpha().raw().toBuffer());
}
