import { type ColourPlan, fallBack, planColour } from '../colour.ts';
import { type Hints, readHints } from '../container/hints.ts';
import { refuseHollow } from '../container/hollow.ts';
import { iccOf } from '../container/icc.ts';
import { finish } from '../finish.ts';
import { asDecoded, headOf, hintBytes, type Pieces } from '../pieces.ts';
import { pictureFormat } from '../sniff.ts';
import { trouble } from '../trouble.ts';
import type { Decoded, DecodeOptions, PictureFormat } from '../types.ts';
import { agrees, toWide } from './colour.ts';
import { type Image, isLibraryError, type Library, outOfMemory, Scope, technical } from './library.ts';
import { blob, numberField, type Opened, openImage, type Strictness } from './open.ts';
import { takePixels } from './pixels.ts';
import { readSamples, type Samples } from './samples.ts';
import { wideSpace } from './wide.ts';

export const DEFAULT_LIMIT = 100;

/**
 * Decodes by the imaging library: the one path that reads everything. `library` gives it, with AVIF or without;
 * it is not asked before the file is known to be a picture. Rejects with `FileTrouble`.
 */
export async function decodeByLibrary(
  library: (avif: boolean) => Promise<Library>,
  content: Uint8Array | Pieces,
  options: DecodeOptions,
): Promise<Decoded> {
  const format = pictureFormat(headOf(content), options.name);
  const hints = readHints(format, hintBytes(content, format));
  if (hints.rawPreview)
    throw trouble.format(options.name, 'is a camera raw file', 'Develop it and export a TIFF or JPEG.');
  const { name, limitMegapixels = DEFAULT_LIMIT } = options;
  refuseHollow(name, hints, content.length, limitMegapixels);
  const vips = await library(format === 'avif');
  const file = asDecoded(content, format);
  try {
    return await decodeStrictly(vips, file, format, hints, options, 'warning');
  } catch (error) {
    if (!isLibraryError(error)) throw error;
    if (outOfMemory(error)) throw trouble.memory(options.name, technical(error));
  }
  // Small faults that other programs read over are read over too, but said.
  try {
    const decoded = await decodeStrictly(vips, file, format, hints, options, 'error');
    const note = 'The file has a damaged place; check the picture before you trust its readings.';
    return { ...decoded, notes: [...decoded.notes, note] };
  } catch (error) {
    if (!isLibraryError(error)) throw error;
    throw trouble.damaged(options.name, technical(error));
  }
}

async function decodeStrictly(
  vips: Library,
  file: Uint8Array | Pieces,
  format: PictureFormat,
  hints: Hints,
  options: DecodeOptions,
  strict: Strictness,
  random = false,
): Promise<Decoded> {
  const { name, limitMegapixels = DEFAULT_LIMIT } = options;
  const scope = new Scope();
  let opened: Opened | null = null;
  try {
    opened = openImage(vips, scope, file, { strict, random });
    let { image } = opened;
    if (image.width * image.height > limitMegapixels * 1e6)
      throw trouble.tooLarge(name, image.width, image.height, limitMegapixels);
    const icc = blob(image, 'icc-profile-data') ?? (await iccOf(hints));
    const metadata = {
      exif: blob(image, 'exif-data'),
      xmp: blob(image, 'xmp-data'),
      iptc: blob(image, 'iptc-data'),
    };
    const frames = numberField(image, 'n-pages', 1);
    if (numberField(image, 'orientation', 1) > 1) {
      // Turning needs the rows out of order, so the picture is decoded whole inside the library first.
      opened = openImage(vips, scope, file, { strict, random: true });
      image = scope.keep(opened.image.autorot());
    }
    const samples = readSamples(scope, image, name);
    const named = metadata.exif ? { ...hints, exif: metadata.exif } : hints;
    const { plan, ready } = planPixels(vips, scope, samples, icc, named, name);
    const pixels = await takePixels(ready, options);
    opened.check();
    const space = plan.space ?? wideSpace(plan.profile);
    return finish({ name, format, hints, pixels, space, plan, icc, metadata, frames, notes: samples.notes });
  } catch (error) {
    opened?.check();
    // Rows in bundles of an unusual height (some TIFF): decode whole inside the library.
    if (random || !/out of order/.test(technical(error))) throw error;
  } finally {
    scope.end();
  }
  return decodeStrictly(vips, file, format, hints, options, strict, true);
}

/** The plan for the colours, tried against the library, and the image whose pixels are to be taken. */
function planPixels(
  vips: Library,
  scope: Scope,
  samples: Samples,
  icc: Uint8Array | null,
  hints: Hints,
  name: string,
): { plan: ColourPlan; ready: Image } {
  const { model, image } = samples;
  if (model === 'absolute') {
    const profile = absoluteName(image);
    const plan = brought({ space: null, profile, tagged: true, notes: [], useEmbedded: false });
    return { plan, ready: toWide(vips, scope, samples, null) };
  }
  const plan = planColour(name, model, icc, hints);
  const plain = plan.space && !(plan.fromIcc && icc && !agrees(vips, icc, model, plan.space));
  if (plain) return { plan, ready: image };
  const through = { ...plan, space: null };
  try {
    return { plan: brought(through), ready: toWide(vips, scope, samples, through.useEmbedded ? icc : null) };
  } catch (error) {
    if (!through.useEmbedded || outOfMemory(error)) throw error;
  }
  const assumed = fallBack(model, 'The embedded colour profile can’t be used');
  return { plan: assumed, ready: assumed.space ? image : toWide(vips, scope, samples, null) };
}

function absoluteName(image: Image): string {
  const { interpretation } = image;
  if (interpretation === 'scrgb') return 'linear sRGB in floating point';
  return interpretation === 'xyz' ? 'CIE XYZ' : 'CIELAB';
}

function brought(plan: ColourPlan): ColourPlan {
  if (!plan.tagged) return plan;
  const note = `Its colours were brought from “${plan.profile}” to wide 16-bit RGB, relative to the white of its paper or light.`;
  return { ...plan, notes: [...plan.notes, note] };
}
