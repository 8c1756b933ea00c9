import { FileTrouble } from '../trouble.ts';
import { type Image, isLibraryError, type Library, Scope, technical } from '../vips/library.ts';
import type { OutputProfile } from './profileFile.ts';

/** How colours are brought into a profile. */
export interface Way {
  readonly intent: 'relative' | 'perceptual';
  readonly blackPoint: boolean;
}

/** Conversion between the connection space and the code values of a profile, by the colour-management library. */
export interface Inks {
  readonly profile: OutputProfile;
  readonly channels: 3 | 4;
  /** Code values of CIELAB (D50), three numbers a colour. Ink is counted upwards: 0 is bare paper. */
  to(lab: Float32Array, depth: 8 | 16, way: Way): Uint8Array | Uint16Array;
  /** CIELAB (D50) of code values, relative to the paper. */
  back(codes: Uint8Array | Uint16Array): Float32Array;
}

/**
 * Opens a profile for conversion.
 *
 * @throws FileTrouble when the library can't use it
 */
export function openInks(vips: Library, profile: OutputProfile): Inks {
  const channels = profile.model === 'cmyk' ? 4 : 3;
  const within = <T>(act: (scope: Scope) => T): T => {
    const scope = new Scope();
    try {
      return act(scope);
    } catch (error) {
      if (!isLibraryError(error)) throw error;
      throw new FileTrouble(
        'format',
        `The profile “${profile.name}” can’t be used: its tables are damaged or of an unknown kind.`,
        'Fetch it again from where it came from, or choose another.',
        technical(error),
      );
    } finally {
      scope.end();
    }
  };
  const tagged = (scope: Scope, image: Image, interpretation: 'lab' | 'cmyk' | 'srgb' | 'rgb16'): Image => {
    const out = scope.keep(image.copy({ interpretation }));
    out.setBlob('icc-profile-data', profile.bytes);
    return out;
  };
  const inks: Inks = {
    profile,
    channels,
    to: (lab, depth, { intent, blackPoint }) =>
      within((scope) => {
        const raw = vips.Image.newFromMemory(lab, lab.length / 3, 1, 3, vips.BandFormat.float);
        const image = tagged(scope, scope.keep(raw), 'lab');
        const options = { intent, black_point_compensation: blackPoint, depth };
        const codes = scope.keep(image.iccExport(options)).writeToMemory();
        return codes as unknown as Uint8Array;
      }),
    back: (codes) =>
      within((scope) => {
        const deep = codes instanceof Uint16Array;
        const format = deep ? vips.BandFormat.ushort : vips.BandFormat.uchar;
        const raw = vips.Image.newFromMemory(codes, codes.length / channels, 1, channels, format);
        const image = tagged(scope, scope.keep(raw), channels === 4 ? 'cmyk' : deep ? 'rgb16' : 'srgb');
        const lab = image.iccImport({ embedded: true, pcs: 'lab', intent: 'relative' });
        return scope.keep(lab).writeToMemory() as unknown as Float32Array;
      }),
  };
  inks.to(Float32Array.of(50, 0, 0), 8, { intent: 'relative', blackPoint: false });
  return inks;
}

/** Code values of a file as they stand in it: the way to read inks back. */
export interface Codes {
  readonly width: number;
  readonly height: number;
  readonly channels: number;
  readonly depth: 8 | 16;
  readonly data: Uint8Array | Uint16Array;
}

/** Reads a file's code values without any colour management. */
export function readCodes(vips: Library, bytes: Uint8Array, frames?: 'all'): Codes {
  const scope = new Scope();
  try {
    const image = scope.keep(vips.Image.newFromBuffer(bytes, frames ? '[n=-1]' : '', { fail_on: 'warning' }));
    const { width, height, bands: channels } = image;
    const depth = image.format === 'ushort' ? 16 : 8;
    return { width, height, channels, depth, data: image.writeToMemory() as unknown as Uint8Array };
  } finally {
    scope.end();
  }
}
