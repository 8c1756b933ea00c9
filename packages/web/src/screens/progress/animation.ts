import type { Work } from '../../document/work.ts';
import { animatedWebp } from '../../picture/animatedWebp.ts';
import { keeper } from '../../state/desks.ts';
import { Unwritable } from '../../state/strip.ts';

/** Long side of the animation, how long a version stands (three changes a second at most: WCAG 2.3.1), and its ground. */
const FRAME = 320;
const STAND = 1000;
const GROUND = '#777';

/** The versions one after the other, each whole on neutral grey. */
export async function animationOf({ versions }: Work): Promise<Blob> {
  const sizes = versions.map(({ width: w, height: h }) => [
    (FRAME * w) / Math.max(w, h),
    (FRAME * h) / Math.max(w, h),
  ]);
  const width = Math.round(Math.max(...sizes.map(([w]) => w)));
  const height = Math.round(Math.max(...sizes.map(([, h]) => h)));
  const frames: Uint8Array[] = [];
  for (const [index, { small }] of versions.entries()) {
    const blob = small ? await keeper.picture(small, 'image/webp') : null;
    frames.push(await frameOf(blob, width, height, sizes[index]));
  }
  return new Blob([animatedWebp(frames, width, height, STAND)], { type: 'image/webp' });
}

/** One frame; a version whose small picture is lost shows the ground. */
async function frameOf(
  blob: Blob | null,
  width: number,
  height: number,
  [w, h]: readonly number[],
): Promise<Uint8Array> {
  const canvas = new OffscreenCanvas(width, height);
  const context = canvas.getContext('2d', { alpha: false });
  if (context === null) throw new Error('no drawing');
  context.fillStyle = GROUND;
  context.fillRect(0, 0, width, height);
  if (blob) {
    const bitmap = await createImageBitmap(blob);
    context.imageSmoothingQuality = 'high';
    context.drawImage(bitmap, (width - w) / 2, (height - h) / 2, w, h);
    bitmap.close();
  }
  const frame = await canvas.convertToBlob({ type: 'image/webp', quality: 0.9 });
  if (frame.type !== 'image/webp')
    throw new Unwritable(
      'This browser writes no WebP pictures. Save the dossier and use “halflight work strip”, or another browser.',
    );
  return new Uint8Array(await frame.arrayBuffer());
}
