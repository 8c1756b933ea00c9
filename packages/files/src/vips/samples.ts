import type { Model } from '../colour.ts';
import { trouble } from '../trouble.ts';
import type { Image, Scope } from './library.ts';
import { numberField } from './open.ts';

/** A picture whose samples are known. */
export interface Samples {
  /** 'absolute' pixels need no profile: Lab, XYZ or linear light in floating point. */
  readonly model: Model | 'absolute';
  /** Three or four bands of code values, or four or five of ink. */
  readonly image: Image;
  /** The same before grey was spread over three bands: what a grey profile can be applied to. */
  readonly asStored: Image;
  readonly notes: readonly string[];
}

const CODE_FORMATS = ['uchar', 'ushort'];
const ABSOLUTE = ['lab', 'labq', 'labs', 'xyz', 'scrgb'];

/**
 * Brings an opened picture to samples that the rest understands: grey in three channels, whole code values.
 * Throws `FileTrouble` for kinds of samples that no painter's picture has.
 */
export function readSamples(scope: Scope, image: Image, name: string): Samples {
  const { bands, format, interpretation } = image;
  if (ABSOLUTE.includes(interpretation)) return { model: 'absolute', image, asStored: image, notes: [] };
  if (!CODE_FORMATS.includes(format))
    throw trouble.format(
      name,
      `holds ${format.includes('complex') ? 'complex' : format} numbers`,
      'Export it as 8- or 16-bit PNG or TIFF.',
    );
  const cmyk = interpretation === 'cmyk';
  const colours = cmyk ? 4 : bands < 3 ? 1 : 3;
  const extra = bands > colours + 1;
  const notes = extra ? ['The file has extra channels; they were left out.'] : [];
  const used = extra ? scope.keep(image.extractBand(0, { n: colours + 1 })) : image;
  const full = stretch(scope, used);
  if (cmyk) return { model: 'cmyk', image: full, asStored: full, notes };
  if (colours === 3) return { model: 'rgb', image: full, asStored: full, notes };
  const grey = bands === 1 ? full : scope.keep(full.extractBand(0));
  const rest = bands === 1 ? [grey, grey] : [grey, grey, scope.keep(full.extractBand(1))];
  const joined = scope.keep(grey.bandjoin(rest));
  const tagged = scope.keep(joined.copy({ interpretation: format === 'ushort' ? 'rgb16' : 'srgb' }));
  return { model: 'grey', image: tagged, asStored: full, notes };
}

/** 10- and 12-bit samples come shifted up, so that white would miss the last code value: stretch them. */
function stretch(scope: Scope, image: Image): Image {
  const bits = numberField(image, 'bits-per-sample', 16);
  if (image.format !== 'ushort' || bits <= 8 || bits >= 16 || numberField(image, 'heif-bitdepth', 0) === 0)
    return image;
  const top = (2 ** bits - 1) * 2 ** (16 - bits);
  return scope.keep(scope.keep(image.linear(65535 / top, 0.5)).cast('ushort'));
}
