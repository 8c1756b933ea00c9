import { basename, extname, resolve } from 'node:path';
import {
  type Baseline,
  drawGuide,
  type Examination,
  examine,
  type Intent,
  type Place,
  type Raster,
  readingInput,
  repaintPlaces,
} from '@halflight/engine';
import { type Codec, type Decoded, FileTrouble } from '@halflight/files';
import { openCodec, readBytes, writeAtomically } from '@halflight/files/node';
import { measure } from '../check/measure.ts';
import { tellTrouble } from '../check/outcome.ts';
import { colourLines } from '../check/places.ts';
import { readBaseline, readIntent } from '../inputs.ts';
import { EXIT, WrongUse } from '../trouble.ts';

export interface GuideOptions {
  readonly out: string;
  readonly intent?: string;
  readonly baseline?: string;
  readonly limit: number;
}

/** Writes the guide layer of a picture and says which colours are in it; gives the exit code. */
export async function guide(path: string, options: GuideOptions): Promise<number> {
  checkTarget(options.out, path);
  const intent = await readIntent(options.intent);
  const baseline = await readBaseline(options.baseline);
  const name = basename(path);
  const codec = await openCodec();
  try {
    const decoded = await codec.decode(await readBytes(path, name), {
      name,
      limitMegapixels: options.limit,
    });
    for (const note of decoded.notes) process.stderr.write(`${note}\n`);
    const examination = look(decoded, intent, baseline);
    const places = repaintPlaces(examination.findings);
    await writeAtomically(options.out, await layerOf(codec, decoded, places));
    if (places.length === 0) process.stderr.write(`${whyEmpty(examination)}\n`);
    for (const line of colourLines(places, decoded.raster.space)) process.stderr.write(`${line}\n`);
    process.stdout.write(`${options.out}\n`);
    return EXIT.done;
  } catch (error) {
    return tellTrouble(error, name);
  } finally {
    codec.close();
  }
}

function look({ raster, facts }: Decoded, intent: Intent, baseline: Baseline | null): Examination {
  return examine(readingInput({ picture: facts, ...measure(raster), intent, baseline }));
}

/** The layer as the bytes of a PNG with the picture's own profile, held against what was drawn. */
async function layerOf(codec: Codec, decoded: Decoded, places: readonly Place[]): Promise<Uint8Array> {
  const { raster, facts, profile } = decoded;
  const layer = drawGuide(places, raster, raster.space);
  // Pixels that had to be converted on reading no longer belong to the file's own profile.
  const own = profile !== null && facts.profile === raster.space.name ? { profile } : {};
  const bytes = await codec.encode(layer, { format: 'png', ...own });
  const back = await codec.decode(bytes, { name: facts.name, limitMegapixels: Number.MAX_SAFE_INTEGER });
  if (!same(layer, back.raster))
    throw new FileTrouble(
      'write',
      `The guide layer of “${facts.name}” did not read back as it was drawn.`,
      'Nothing was written. Please tell the makers of Halflight.',
    );
  return bytes;
}

function same(a: Raster, b: Raster): boolean {
  if (a.width !== b.width || a.height !== b.height || b.channels !== 4 || b.depth !== 8) return false;
  for (let i = 0; i < a.data.length; i += 4) {
    if (a.data[i + 3] !== b.data[i + 3]) return false;
    // Colour under full transparency is nobody's.
    if (a.data[i + 3] === 0) continue;
    for (let c = 0; c < 3; c++) if (a.data[i + c] !== b.data[i + c]) return false;
  }
  return true;
}

function whyEmpty({ readings }: Examination): string {
  const evidence = readings.find(({ id }) => id === 'light')?.reading.evidence;
  if (evidence?.level === 'weak') return `No place is known that needs repainting. Light: ${evidence.reason}`;
  return 'Nothing is to be repainted: the layer is empty.';
}

function checkTarget(out: string, path: string): void {
  if (resolve(out) === resolve(path))
    throw new WrongUse(`“${out}” is the picture itself. Name another file for the layer.`);
  if (extname(out).toLowerCase() !== '.png')
    throw new WrongUse(`“${out}”: the layer is a PNG. Give --out a name that ends in .png.`);
}
