import { readFileSync } from 'node:fs';
import { type Triple, transform } from '@halflight/engine';
import { PCS_TO_SRGB } from '../../src/icc/space.ts';

interface Answers {
  readonly base64?: string;
  readonly codes: readonly (readonly number[])[];
  readonly xyz: readonly Triple[];
}

/** What LittleCMS' calculator says (see make.mjs): 8-bit codes and XYZ relative to D50, white 100. */
export const lcms: { readonly source: string; readonly profiles: Readonly<Record<string, Answers>> } =
  JSON.parse(readFileSync(new URL('./lcms.json', import.meta.url), 'utf8'));

/** An answer as linear light in sRGB primaries. */
export function asLinear(xyz: Triple): Triple {
  return transform(PCS_TO_SRGB, [xyz[0] / 100, xyz[1] / 100, xyz[2] / 100]);
}

export function keptProfile(name: string): Uint8Array {
  return Buffer.from(lcms.profiles[name].base64 ?? '', 'base64');
}
