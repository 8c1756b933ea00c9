import { type HandoverSettings, type PresetName, planSize } from '@halflight/engine';

/** What each preset is for, to follow "for". */
export const OCCASIONS: readonly (readonly [PresetName, string])[] = [
  ['screen', 'a screen'],
  ['print', 'a print'],
  ['portfolio', 'a portfolio page'],
  ['layered', 'further work, in layers'],
];

export const FORMATS: Readonly<Record<HandoverSettings['format'], string>> = {
  jpeg: 'JPEG',
  png: 'PNG',
  tiff: 'TIFF',
  webp: 'WebP',
  openraster: 'OpenRaster',
};

const SPACES = {
  own: 'its own colours',
  srgb: 'sRGB',
  'display-p3': 'Display P3',
  'a98-rgb': 'a98-rgb',
} as const;

export const SPACE_NAMES = Object.entries(SPACES) as [keyof typeof SPACES, string][];

/** The space in words. */
export function spaceWords({ space }: Pick<HandoverSettings, 'space'>): string {
  return typeof space === 'string' ? SPACES[space] : `the profile “${space.profile}”`;
}

/** "A JPEG of 2560 × 1600 pixels in sRGB, for a screen", and what the artist should know. */
export function fileWords(
  picture: { readonly width: number; readonly height: number },
  settings: HandoverSettings,
): { sentence: string; notes: readonly string[]; possible: boolean } {
  const plan = planSize(picture, settings.size);
  if (!plan.ok) return { sentence: 'This file can’t be made.', notes: [plan.trouble], possible: false };
  const { width, height, pixelsPerInch, notes } = plan.value;
  const fine = pixelsPerInch ? `, ${Math.round(pixelsPerInch)} an inch` : '';
  const occasion = OCCASIONS.find(([name]) => name === settings.preset)?.[1] ?? '';
  const article = settings.format === 'openraster' ? 'An' : 'A';
  return {
    sentence: `${article} ${FORMATS[settings.format]} of ${width} × ${height} pixels${fine}, in ${spaceWords(settings)}, for ${occasion}.`,
    notes,
    possible: true,
  };
}
