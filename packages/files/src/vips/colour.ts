import { type ColourSpace, decode, transform } from '@halflight/engine';
import type { Model } from '../colour.ts';
import { type Image, type Library, Scope } from './library.ts';
import type { Samples } from './samples.ts';
import { SRGB_TO_WIDE, WIDE_EXPONENT } from './wide.ts';

/**
 * Largest difference in linear light between curves with matrix and the library's own conversion: the library
 * counts in steps of 1/32768 of XYZ (up to 1.5e-4 in linear sRGB) and known spaces stand in for their rounded
 * profiles (up to 2e-3). A profile with tables is off by far more.
 */
const AGREEMENT = 4e-3;

/** Steps of the test grid for each channel: 6³ colours, and the greys. */
const GRID = 6;

/** True when the space gives the same linear light for code values as the colour-management library does. */
export function agrees(vips: Library, icc: Uint8Array, model: Model, space: ColourSpace): boolean {
  const scope = new Scope();
  try {
    const codes = testCodes(model);
    const image = scope.keep(
      vips.Image.newFromMemory(Uint8Array.from(codes), codes.length / 3, 1, 3, vips.BandFormat.uchar),
    );
    const one = model === 'grey' && isGrey(icc) ? scope.keep(image.extractBand(0)) : image;
    const tagged = scope.keep(one.copy({ interpretation: one.bands === 1 ? 'b-w' : 'srgb' }));
    const theirs = toLinear(scope, tagged, icc).writeToMemory();
    for (let i = 0; i < codes.length; i += 3) {
      const ours = transform(space.toSrgb, [
        decode(space.curves[0], codes[i] / 255),
        decode(space.curves[1], codes[i + 1] / 255),
        decode(space.curves[2], codes[i + 2] / 255),
      ]);
      for (let c = 0; c < 3; c++) if (!(Math.abs(ours[c] - theirs[i + c]) < AGREEMENT)) return false;
    }
    return true;
  } catch {
    return true; // the library can't use the profile at all: what its tags say is the best there is
  } finally {
    scope.end();
  }
}

function isGrey(icc: Uint8Array): boolean {
  return String.fromCharCode(...icc.subarray(16, 20)) === 'GRAY';
}

function testCodes(model: Model): number[] {
  const codes: number[] = [];
  for (let i = 0; i < 256; i += 5) codes.push(i, i, i);
  if (model === 'grey') return codes;
  const at = (i: number) => Math.round((i * 255) / (GRID - 1));
  for (let r = 0; r < GRID; r++)
    for (let g = 0; g < GRID; g++) for (let b = 0; b < GRID; b++) codes.push(at(r), at(g), at(b));
  return codes;
}

/**
 * Linear light in sRGB primaries, unclipped. Of the library's routes only the one through XYZ does not clip
 * colours; the one through Lab has the finer steps in the dark and is taken for grey, which it can't clip.
 * Without a profile the library takes its own.
 */
function toLinear(scope: Scope, image: Image, icc: Uint8Array | null): Image {
  const tagged = scope.keep(image.copy());
  if (icc) tagged.setBlob('icc-profile-data', icc);
  else tagged.remove('icc-profile-data');
  const way = icc ? { embedded: true } : { input_profile: image.interpretation === 'cmyk' ? 'cmyk' : 'srgb' };
  const pcs = image.bands === 1 ? 'lab' : 'xyz';
  const connected = scope.keep(tagged.iccImport({ ...way, pcs, intent: 'relative' }));
  return scope.keep(connected.colourspace('scrgb'));
}

/**
 * Whole pixels through the library into the wide space at 16 bit, by `icc` or, for null, by the library's own
 * profile; alpha goes beside them untouched.
 */
export function toWide(vips: Library, scope: Scope, samples: Samples, icc: Uint8Array | null): Image {
  const { model, asStored: image } = samples;
  const colours = model === 'cmyk' ? 4 : model === 'grey' ? 1 : 3;
  const opaque = image.bands > colours ? scope.keep(image.extractBand(0, { n: colours })) : image;
  const linear =
    model === 'absolute' ? scope.keep(opaque.colourspace('scrgb')) : toLinear(scope, opaque, icc);
  const rows = [0, 3, 6].map((i) => SRGB_TO_WIDE.slice(i, i + 3)) as unknown as number[];
  const matrix = scope.keep(vips.Image.newFromArray(rows));
  const wide = scope.keep(scope.keep(linear.recomb(matrix)).clamp());
  const encoded = scope.keep(scope.keep(wide.pow(1 / WIDE_EXPONENT)).linear(65535, 0.5));
  const codes = scope.keep(scope.keep(encoded.cast('ushort')).copy({ interpretation: 'rgb16' }));
  if (image.bands === colours) return codes;
  const alpha = scope.keep(image.extractBand(colours));
  return scope.keep(codes.bandjoin(sixteen(scope, alpha, image)));
}

/** Alpha as 16 bit: opaque is 1 beside linear light, 65535 beside 16-bit codes, else 255. */
function sixteen(scope: Scope, alpha: Image, beside: Image): Image {
  if (alpha.format === 'ushort') return alpha;
  const opaque = beside.interpretation === 'scrgb' ? 1 : 255;
  return scope.keep(scope.keep(alpha.linear(65535 / opaque, 0.5)).cast('ushort'));
}
