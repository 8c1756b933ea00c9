import type { ColourSpace } from '@halflight/engine';
import { ascii } from '../container/bytes.ts';
import { readProfile } from '../icc/read.ts';
import { spaceOfProfile } from '../icc/space.ts';
import { FileTrouble } from '../trouble.ts';

/** A profile that a picture can be converted to. */
export interface OutputProfile {
  readonly bytes: Uint8Array;
  readonly model: 'rgb' | 'cmyk';
  /** Its own words for itself. */
  readonly name: string;
  /** Curves and matrix, which need no library; null for tables. */
  readonly space: ColourSpace | null;
}

/** Kinds of profile that say how a device shows colours (ICC.1:2022, table 18). */
const DEVICES = ['mntr', 'prtr', 'spac', 'scnr'];
const KINDS: Readonly<Record<string, string>> = {
  link: 'a link between two devices',
  abst: 'an edit of colours',
  nmcl: 'a list of named colours',
};
const CHOOSE = 'Choose the profile of a printer, a paper or a screen (.icc or .icm).';

/**
 * Looks through a profile that the artist chose.
 *
 * @throws FileTrouble with a sentence when it is none, or one that no picture can be converted to
 */
export function openProfile(bytes: Uint8Array, name: string): OutputProfile {
  const profile = readProfile(bytes);
  if (!profile)
    throw new FileTrouble('format', `“${name}” is not a colour profile, or it is damaged.`, CHOOSE);
  const kind = ascii(bytes, 12, 4);
  if (!DEVICES.includes(kind))
    throw new FileTrouble(
      'format',
      `“${name}” is ${KINDS[kind] ?? 'a profile of another class'}, to which no picture can be converted.`,
      CHOOSE,
    );
  if (profile.model !== 'RGB ' && profile.model !== 'CMYK')
    throw new FileTrouble(
      'format',
      `“${name}” is a profile for ${profile.model.trim() === 'GRAY' ? 'grey' : profile.model.trim()} pictures.`,
      'Choose one for RGB or CMYK.',
    );
  const space = spaceOfProfile(profile);
  const tags = tagNames(bytes);
  if (!space && !['B2A0', 'B2A1', 'B2A2'].some((tag) => tags.includes(tag)))
    throw new FileTrouble(
      'format',
      `“${name}” only says how to read colours (of a camera or scanner), not how to make them.`,
      CHOOSE,
    );
  return {
    bytes,
    model: profile.model === 'CMYK' ? 'cmyk' : 'rgb',
    name: profile.description || name,
    space,
  };
}

function tagNames(bytes: Uint8Array): string[] {
  const count = new DataView(bytes.buffer, bytes.byteOffset).getUint32(128);
  return Array.from({ length: count }, (_, i) => ascii(bytes, 132 + 12 * i, 4));
}
