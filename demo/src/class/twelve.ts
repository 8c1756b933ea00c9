/** The class of twelve: one assignment, twelve invented hands, of which two sent files that can't be read. */
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { mkdir, readFile } from 'node:fs/promises';
import { join, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import sharp from 'sharp';
import { pictureName, writeWhole } from '../files.ts';
import { type Codes, type Hand, photograph, screenshot, vary } from './vary.ts';

/** How a work reached the teacher. */
type Sent = 'jpeg' | 'png' | 'photograph' | 'screenshot' | 'cut off' | 'heic';

/** One of the class. `fault` is what was planted, in words. */
export interface Student {
  readonly file: string;
  readonly fault: string;
  readonly sent: Sent;
  readonly hand: Hand;
}

export const TWELVE: readonly Student[] = [
  { file: 'Ana Brook - Last boat.jpg', fault: 'none', sent: 'jpeg', hand: { version: 5 } },
  {
    file: 'Bo Tern - Low water.png',
    fault: 'two hues too many',
    sent: 'png',
    hand: { version: 4, crop: [0.1, 0.05, 0.85, 0.9], mirrored: true },
  },
  {
    file: 'Cai Reed - Net sheds.jpg',
    fault: 'hues everywhere, shade without colour',
    sent: 'jpeg',
    hand: { version: 2, crop: [0.25, 0.1, 0.75, 0.85] },
  },
  {
    file: 'Dee Marsh - Lamps.jpg',
    fault: 'overworked nets, closed darks',
    sent: 'jpeg',
    hand: { version: 3, fussy: true, value: [1.12, -22] },
  },
  {
    file: 'Eli Sand - Evening.png',
    fault: 'block-in only, the light is not decided',
    sent: 'png',
    hand: { version: 1, crop: [0, 0, 0.9, 1] },
  },
  {
    file: 'Fay Gull - Mud flats.jpg',
    fault: 'a grey veil over everything',
    sent: 'jpeg',
    hand: { version: 5, veil: 0.38, mirrored: true },
  },
  {
    file: 'Gus Weir - Warm evening.jpg',
    fault: 'another hue plan: falls out of the series',
    sent: 'jpeg',
    hand: { version: 5, turn: 150, chroma: 1.25, crop: [0.05, 0.1, 0.9, 0.85] },
  },
  {
    file: 'Hal Quay - Landing.jpg',
    fault: 'colours at the ends',
    sent: 'jpeg',
    hand: { version: 5, chroma: 2.3, value: [1.25, -6] },
  },
  {
    file: 'Ida Holm - Jetty.jpg',
    fault: 'none; a photograph of a print',
    sent: 'photograph',
    hand: { version: 5, crop: [0.05, 0.05, 0.9, 0.9] },
  },
  {
    file: 'Jon Fell - From my phone.png',
    fault: 'shade without colour; a screenshot',
    sent: 'screenshot',
    hand: { version: 4, greyShade: 0.9 },
  },
  { file: 'Kit Shore - Boats.jpg', fault: 'the file is cut off', sent: 'cut off', hand: { version: 5 } },
  { file: 'Lou Tide - Sheds.heic', fault: 'a format that can’t be read', sent: 'heic', hand: { version: 5 } },
];

const LONG_SIDE = 960;

/**
 * Writes the twelve, and a list of them for the app (`index.json`), into `class` inside the folder of the painted
 * versions; does nothing when they are there.
 *
 * @returns the folder of the class
 */
export async function classFolder(painted: string): Promise<string> {
  const folder = join(painted, 'class');
  const stamp = join(folder, '.made');
  const hash = sourceHash();
  if ((await readFile(stamp, 'utf8').catch(() => '')) === hash) return folder;
  await mkdir(folder, { recursive: true });
  for (const { file, sent, hand } of TWELVE) {
    const codes = await vary(join(painted, pictureName(hand.version)), hand, LONG_SIDE);
    await writeWhole(join(folder, file), await bytesOf(codes, sent));
  }
  const list = TWELVE.map(({ file, fault }) => ({ file, fault }));
  await writeWhole(join(folder, 'index.json'), `${JSON.stringify(list, null, 2)}\n`);
  await writeWhole(stamp, hash);
  return folder;
}

async function bytesOf(codes: Codes, sent: Sent): Promise<Uint8Array> {
  const of = ({ data, width, height }: Codes) =>
    sharp(data, { raw: { width, height, channels: 3 } }).withIccProfile('srgb');
  switch (sent) {
    case 'jpeg':
      return of(codes).jpeg({ quality: 90 }).toBuffer();
    case 'png':
      return of(codes).png().toBuffer();
    case 'photograph':
      return of(photograph(codes)).jpeg({ quality: 88 }).withExifMerge(CAMERA).toBuffer();
    case 'screenshot':
      return of(screenshot(codes)).png().toBuffer();
    case 'cut off': {
      const whole = await of(codes).jpeg({ quality: 90 }).toBuffer();
      return whole.subarray(0, Math.floor(whole.length * 0.4));
    }
    case 'heic':
      return heicHead();
  }
}

/** An invented camera. */
const CAMERA = {
  IFD0: { Make: 'Invented', Model: 'Telephone' },
  IFD2: { ExposureTime: '1/60', FNumber: '18/10' },
};

/** The first box of a HEIC file (ISO/IEC 14496-12), and nothing behind it. */
function heicHead(): Uint8Array {
  const box = new Uint8Array(1024);
  box.set([0, 0, 0, 24, ...Buffer.from('ftypheic'), 0, 0, 0, 0, ...Buffer.from('heicmif1')]);
  return box;
}

/** Hash of the sources that decide what the twelve look like. */
function sourceHash(): string {
  const here = fileURLToPath(new URL('.', import.meta.url));
  const source = here.includes(`${sep}dist${sep}`)
    ? here.replace(`${sep}dist${sep}`, `${sep}src${sep}`)
    : here;
  const hash = createHash('sha256');
  for (const name of readdirSync(source).sort()) hash.update(readFileSync(join(source, name)));
  return hash.digest('hex').slice(0, 12);
}
