import { readFileSync, writeFileSync } from 'node:fs';
import { SHORTEST_STAND } from '@halflight/engine';
import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import { holdAnimation, type MeantFrame } from '../../src/handover/animation.ts';
import { encodeAnimation, encodeSmall, frameOf, openCodec, showView } from '../../src/node/index.ts';

/** Frames of the animation as Pillow reads them: oracle/animated_webp.py. */
const oracle: { size: [number, number]; frames: { duration: number; mean: [number, number, number] }[] } =
  JSON.parse(readFileSync(new URL('./oracle/animatedWebp.json', import.meta.url), 'utf8'));
const KEPT = new URL('./oracle/animated.webp', import.meta.url);

const flat = (width: number, height: number, background: string): Promise<Uint8Array> =>
  sharp({ create: { width, height, channels: 3, background } })
    .png()
    .toBuffer();

/** Frames of three flat pictures, the second one upright. */
async function frames(): Promise<Uint8Array[]> {
  const pictures = await Promise.all([
    flat(60, 40, '#203050'),
    flat(40, 60, '#c08040'),
    flat(60, 40, '#f0e0d0'),
  ]);
  return Promise.all(pictures.map((picture) => frameOf(picture, 60, 40)));
}

const animation = async (): Promise<Uint8Array> => encodeAnimation(await frames(), 60, 40, 750);

/** Mean colour of every frame, as sharp reads it. */
async function framesOf(bytes: Uint8Array): Promise<number[][]> {
  const { pages = 1 } = await sharp(bytes, { animated: true }).metadata();
  return Promise.all(
    Array.from({ length: pages }, async (_, page) =>
      (await sharp(bytes, { page }).stats()).channels.slice(0, 3).map(({ mean }) => mean),
    ),
  );
}

describe('an animated WebP', () => {
  test('is what another decoder sees: frames, times and colours', async () => {
    if (process.env.HALFLIGHT_KEEP) writeFileSync(KEPT, await animation());
    const kept = readFileSync(KEPT);
    const { width, pageHeight, delay, loop } = await sharp(kept, { animated: true }).metadata();
    expect([width, pageHeight, delay, loop]).toEqual([
      ...oracle.size,
      oracle.frames.map((f) => f.duration),
      0,
    ]);
    const frames = await framesOf(kept);
    for (const [k, { mean }] of oracle.frames.entries())
      for (const c of [0, 1, 2]) expect(Math.abs(frames[k][c] - mean[c])).toBeLessThan(1.5);
  });

  test('and what is written today shows the same', async () => {
    const now = await framesOf(await animation());
    const kept = await framesOf(readFileSync(KEPT));
    expect(now.length).toBe(3);
    for (const k of [0, 1, 2])
      for (const c of [0, 1, 2]) expect(Math.abs(now[k][c] - kept[k][c])).toBeLessThan(1);
  });

  test('is held against what was meant, by the other build of the decoder', async () => {
    const codec = await openCodec();
    const [one, two, three] = (await frames()).map((data) => ({ channels: 3, data }) as const);
    const hold = async (meant: readonly MeantFrame[], shown = [one, two, three]) =>
      holdAnimation(
        codec,
        await encodeAnimation(
          shown.map(({ data }) => data),
          60,
          40,
          750,
        ),
        meant,
        60,
        40,
        'strip.webp',
      );
    await hold([one, two, three]);
    // The encoder keeps one of two that are alike.
    await hold([one, one, three], [one, one, three]);
    for (const wrong of [
      [one, two],
      [one, three, two],
      [two, two, three],
      [one, two, three, one],
    ])
      await expect(hold(wrong)).rejects.toThrow('did not read back');
    codec.close();
  });

  test('never changes more often than three times a second', async () => {
    expect(1000 / SHORTEST_STAND).toBeLessThan(3);
    await expect(encodeAnimation([new Uint8Array(192)], 8, 8, 300)).rejects.toThrow(/three times a second/);
  });
});

test('a view is shown in sRGB, clipped, with its cover', async () => {
  const rgb = Float32Array.from([-0.1, 0.5, 1.2, 0, 0, 0]);
  const shown = showView({ width: 2, height: 1, rgb, alpha: Float32Array.from([1, 0.5]), scale: 1 });
  // 0.5 of linear light is code 188: IEC 61966-2-1.
  expect([...shown.data]).toEqual([0, 188, 255, 255, 0, 0, 0, 128]);
  const { width, hasAlpha } = await sharp(await encodeSmall(shown)).metadata();
  expect([width, hasAlpha]).toEqual([2, true]);
});
