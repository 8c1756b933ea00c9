import { A98_RGB, type ColourSpace, SRGB } from '@halflight/engine';
import { exifColourSpace } from './container/exif.ts';
import type { Hints } from './container/hints.ts';
import { spaceOfCodes, spaceOfGamma } from './icc/coded.ts';
import { readProfile } from './icc/read.ts';
import { spaceOfProfile } from './icc/space.ts';
import { trouble } from './trouble.ts';

/** How the samples in the file are meant, before any profile. */
export type Model = 'rgb' | 'grey' | 'cmyk';

/** The decision about a picture's colours. */
export interface ColourPlan {
  /** The space of the code values; null when whole pixels must pass through the colour-management library. */
  readonly space: ColourSpace | null;
  /** For `facts.profile`. */
  readonly profile: string;
  readonly tagged: boolean;
  readonly notes: readonly string[];
  /** True when `space` was read from the embedded profile. */
  readonly fromIcc?: boolean;
  /** Whether the library can use the embedded profile; otherwise it takes its own. */
  readonly useEmbedded: boolean;
}

const ASSUMED = 'sRGB (assumed, the file names none)';
const MODELS: Record<Model, string> = { rgb: 'RGB ', grey: 'GRAY', cmyk: 'CMYK' };

/**
 * Decides what the code values mean. Order of what is believed: coded description, ICC profile, PNG's sRGB
 * chunk, its gamma and primaries (PNG third edition, section 4.3), EXIF, else sRGB, which is said.
 * Throws `FileTrouble` for pictures brighter than white.
 */
export function planColour(name: string, model: Model, icc: Uint8Array | null, hints: Hints): ColourPlan {
  if (model !== 'cmyk' && hints.cicp && (hints.cicp.beforeIcc || !icc)) {
    const coded = spaceOfCodes(hints.cicp.primaries, hints.cicp.transfer);
    if (coded === 'hdr')
      throw trouble.format(
        name,
        'is a high dynamic range picture, brighter than white',
        'Export a standard (SDR) copy: all readings are made for pictures with a white.',
      );
    if (coded) return named(coded);
  }
  if (icc) return planProfile(model, icc);
  if (model === 'cmyk')
    return {
      space: null,
      profile: 'CMYK (the file names no profile)',
      tagged: false,
      useEmbedded: false,
      notes: [
        'The file is CMYK without a profile: a general coated-paper profile was assumed, so colours are approximate. Export it with its profile, or as RGB.',
      ],
    };
  if (hints.srgb) return named(SRGB);
  const gamma = spaceOfGamma(hints.gamma, hints.chromaticities);
  if (gamma) return named(gamma);
  const exif = hints.exif ? exifColourSpace(hints.exif) : null;
  if (exif) return named(exif === 'srgb' ? SRGB : A98_RGB);
  return { space: SRGB, profile: ASSUMED, tagged: false, notes: [], useEmbedded: false };
}

function named(space: ColourSpace): ColourPlan {
  return { space, profile: space.name, tagged: true, notes: [], useEmbedded: false };
}

function planProfile(model: Model, icc: Uint8Array): ColourPlan {
  const profile = readProfile(icc);
  if (!profile) return fallBack(model, 'The embedded colour profile is damaged');
  // Grey pictures with an RGB profile are common and clear: grey is the same in all three channels.
  const fits = profile.model === MODELS[model] || (model === 'grey' && profile.model === 'RGB ');
  if (!fits) return fallBack(model, 'The embedded colour profile is for another kind of picture');
  const space = spaceOfProfile(profile);
  if (space) return { ...named(space), fromIcc: true, useEmbedded: true };
  if (profile.model !== MODELS[model])
    return fallBack(model, 'The embedded colour profile is for colour pictures');
  const words = profile.description || `${profile.model.trim()} profile`;
  return { space: null, profile: words, tagged: true, notes: [], useEmbedded: true };
}

/** The plan when the library or the profile gives up. */
export function fallBack(model: Model, why: string): ColourPlan {
  const what = model === 'cmyk' ? 'a general coated-paper profile' : 'sRGB';
  return {
    space: model === 'cmyk' ? null : SRGB,
    profile:
      model === 'cmyk'
        ? 'CMYK (assumed, the embedded profile can’t be used)'
        : 'sRGB (assumed, the embedded profile can’t be used)',
    tagged: false,
    useEmbedded: false,
    notes: [
      `${why}, so ${what} was assumed. If colours look wrong, export the picture again with its profile.`,
    ],
  };
}
