import { extname } from 'node:path';
import { SHORTEST_STAND, stripLayout, stripSvg } from '@halflight/engine';
import { FileTrouble, type Work } from '@halflight/files';
import type { Dossier } from '@halflight/files/dossier';
import { holdMarkup } from '@halflight/files/handover';
import { encodeSheet, openCodec, openDossierFile, writeAtomically } from '@halflight/files/node';
import { checkedAnimation } from '../handover/animation.ts';
import { WrongUse, withTrouble } from '../trouble.ts';
import { curveOf } from './show.ts';

export interface StripOptions {
  readonly out: string;
  readonly seconds: number;
}

/** Long side of a version in the strip, and in the animation. */
const SIDE = 280;
const FRAME = 320;
const MOST_SMALL = 2 ** 24;

/** Writes the process strip of a work: a picture (SVG, PNG) or an animation (WebP); gives the exit code. */
export async function writeStrip(path: string, { out, seconds }: StripOptions): Promise<number> {
  const ending = extname(out).toLowerCase();
  if (!['.svg', '.png', '.webp'].includes(ending))
    throw new WrongUse(`“${out}” should end in .svg or .png (a picture) or .webp (an animation).`);
  if (1000 * seconds < SHORTEST_STAND)
    throw new WrongUse(
      'Pictures that change more often than three times a second can harm: use 0.34 or more.',
    );
  return withTrouble(async () => {
    const dossier = await openDossierFile(path);
    try {
      const pictures = await smallPictures(dossier);
      const bytes =
        ending === '.webp'
          ? await animation(dossier.work, pictures, seconds, out)
          : await versionStrip(dossier.work, pictures, ending === '.svg' ? 'svg' : 'png');
      await writeAtomically(out, bytes);
      process.stdout.write(`${out}\n`);
    } finally {
      await dossier.close();
    }
  });
}

/** The versions hung by effort and by what they changed. */
export async function versionStrip(
  work: Work,
  pictures: readonly Uint8Array[],
  kind: 'svg' | 'png',
): Promise<Uint8Array> {
  const { points } = curveOf(work);
  const layout = stripLayout(points, sizesOf(work), SIDE);
  if (kind === 'svg') {
    const svg = stripSvg(layout, work.title, pictures.map(addressOf));
    holdMarkup(svg, { counts: { svg: 1, image: pictures.length }, texts: [] }, 'The strip');
    return new TextEncoder().encode(svg);
  }
  const patches = layout.pictures.map((place, k) => ({ ...place, bytes: pictures[k] }));
  return encodeSheet(layout.width, layout.height, patches, stripSvg(layout, work.title, null));
}

/** A small picture as an address that carries it. */
const addressOf = (bytes: Uint8Array): string =>
  `data:image/webp;base64,${Buffer.from(bytes).toString('base64')}`;

async function animation(
  work: Work,
  pictures: readonly Uint8Array[],
  seconds: number,
  name: string,
): Promise<Uint8Array> {
  const sizes = sizesOf(work).map(([w, h]) => [(FRAME * w) / Math.max(w, h), (FRAME * h) / Math.max(w, h)]);
  const width = Math.round(Math.max(...sizes.map(([w]) => w)));
  const height = Math.round(Math.max(...sizes.map(([, h]) => h)));
  const codec = await openCodec();
  try {
    return await checkedAnimation(codec, pictures, { width, height, seconds, name });
  } finally {
    codec.close();
  }
}

const sizesOf = (work: Work): [number, number][] => work.versions.map(({ width, height }) => [width, height]);

/** The small picture of every version. */
export async function smallPictures(dossier: Dossier): Promise<Uint8Array[]> {
  const pictures: Uint8Array[] = [];
  for (const { number, small } of dossier.work.versions) {
    if (small === undefined)
      throw new FileTrouble(
        'missing',
        `Version ${number} has no small picture in the dossier.`,
        'Open the work in the app once: it makes them.',
      );
    pictures.push(await dossier.bytes(small, MOST_SMALL));
  }
  return pictures;
}
