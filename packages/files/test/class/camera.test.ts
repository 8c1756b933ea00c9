import sharp from 'sharp';
import { expect, test } from 'vitest';
import { takenByCamera } from '../../src/class/camera.ts';

/** EXIF as libvips writes it. */
async function exifOf(tags: Record<string, Record<string, string>>): Promise<Uint8Array> {
  const flat = sharp({ create: { width: 8, height: 8, channels: 3, background: '#345' } });
  const jpeg = await flat.jpeg().withExif(tags).toBuffer();
  return (await sharp(jpeg).metadata()).exif!;
}

test('a camera names itself and how it took the picture', async () => {
  const taken = {
    IFD0: { Make: 'Invented', Model: 'Box 1' },
    IFD2: { ExposureTime: '1/60', FNumber: '28/10' },
  };
  expect(takenByCamera(await exifOf(taken))).toBe(true);
});

test('a painting program is no camera, and neither is damage', async () => {
  const painted = await exifOf({ IFD0: { Software: 'Invented', Artist: 'Ana Brook' } });
  expect(takenByCamera(painted)).toBe(false);
  expect(takenByCamera(null)).toBe(false);
  expect(takenByCamera(painted.slice(0, 20))).toBe(false);
  expect(takenByCamera(new Uint8Array(3))).toBe(false);
});
