import { type ProgressCurve, progressCurve, type Strip, stripLayout, stripSvg } from '@halflight/engine';
import type { Work } from '../document/work.ts';
import { keeper } from './desks.ts';
import { savePlace } from './save.ts';
import { say, trouble } from './session.ts';

/** A sentence on why a kind of file can't be written here. */
export class Unwritable extends Error {}

/** Long side of a version in the strip that is saved. */
const SIDE = 280;

/** The versions of a work on their curve of effort and impact. */
export function curveOf({ versions }: Work): ProgressCurve {
  return progressCurve(
    versions.map(({ number, change, minutes }) => ({
      version: number,
      change: change ?? null,
      ...(minutes !== undefined && { minutes }),
    })),
  );
}

/** The strip of a work with pictures of this size. */
export function stripOf(work: Work, side: number): Strip {
  const sizes = work.versions.map(({ width, height }) => [width, height] as const);
  return stripLayout(curveOf(work).points, sizes, side);
}

/** Saves the process strip to a place of the artist's choice. */
export async function saveStrip(work: Work, kind: 'png' | 'svg' | 'webp'): Promise<void> {
  const name = `${work.title.replace(/[\\/:*?"<>|]+/g, ' ')} process.${kind}`;
  const target = await savePlace(name);
  if (target === null) return;
  try {
    if (kind === 'webp') {
      const { animationOf } = await import('../screens/progress/animation.ts');
      await target.take({ blob: await animationOf(work), name });
      return say(`“${name}” was ${target.words}.`);
    }
    const layout = stripOf(work, SIDE);
    const svg = stripSvg(layout, work.title, await Promise.all(work.versions.map(addressOf)));
    const drawing = new Blob([svg], { type: 'image/svg+xml' });
    if (kind === 'svg') {
      const { holdMarkup } = await import('@halflight/files/handover');
      holdMarkup(svg, { counts: { svg: 1, image: work.versions.length }, texts: [] }, name);
    }
    await target.take({ blob: kind === 'svg' ? drawing : await toPng(drawing, layout), name });
    say(`“${name}” was ${target.words}.`);
  } catch (error) {
    if (error instanceof Unwritable) return trouble('reading', error.message);
    trouble('reading', `“${name}” could not be saved. Nothing is lost; try another place.`);
  }
}

/** A one-pixel grey for versions whose small picture is lost. */
const NOTHING = 'data:image/gif;base64,R0lGODlhAQABAIAAAHd3dwAAACwAAAAAAQABAAACAkQBADs=';

/** The small picture of a version as an address that carries it. */
async function addressOf({ small }: Work['versions'][number]): Promise<string> {
  const blob = small ? await keeper.picture(small, 'image/webp') : null;
  if (blob === null) return NOTHING;
  return new Promise((resolve, reject) => {
    const reader = new FileReader();
    reader.onload = () => resolve(String(reader.result));
    reader.onerror = () => reject(reader.error);
    reader.readAsDataURL(blob);
  });
}

/** Twice the size, so that the small pictures keep all their pixels on fine screens. */
const DENSITY = 2;

async function toPng(drawing: Blob, { width, height }: Strip): Promise<Blob> {
  const image = new Image();
  const address = URL.createObjectURL(drawing);
  try {
    image.src = address;
    await image.decode();
    const canvas = document.createElement('canvas');
    canvas.width = DENSITY * width;
    canvas.height = DENSITY * height;
    canvas.getContext('2d')?.drawImage(image, 0, 0, canvas.width, canvas.height);
    const blob = await new Promise<Blob>((resolve, reject) =>
      canvas.toBlob((made) => (made ? resolve(made) : reject(new Error('no picture')))),
    );
    // Decoded again before it leaves.
    (await createImageBitmap(blob)).close();
    return blob;
  } finally {
    URL.revokeObjectURL(address);
  }
}
