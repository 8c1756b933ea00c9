import { mapToGamut } from '../colour/gamut.ts';
import { SRGB } from '../colour/rgbSpaces.ts';
import { linearToSrgb } from '../colour/transfer.ts';
import type { PaletteEntry } from './palette.ts';

/**
 * A palette as design tokens: a group of colour tokens, each with its share and what it does in the picture.
 *
 * Source: Design Tokens Format Module 2025.10 and Color Module 2025.10 (W3C Design Tokens Community Group): `$type`,
 * `$value` with `colorSpace`, `components`, `alpha` and `hex`, `$description`, `$extensions`.
 */
export function paletteTokens(palette: readonly PaletteEntry[], title: string): object {
  const colours = palette.map((entry) => [
    tokenName(entry.name),
    {
      $type: 'color',
      $value: {
        colorSpace: 'srgb',
        components: mapToGamut(entry.rgb, SRGB).map((l) =>
          sixPlaces(Math.min(1, Math.max(0, linearToSrgb(l)))),
        ),
        alpha: 1,
        hex: entry.hex,
      },
      $description: aboutOf(entry),
      $extensions: { halflight: { share: sixPlaces(entry.share), role: entry.role } },
    },
  ]);
  return {
    palette: {
      $type: 'color',
      $description: `Colours that carry “${title}”`,
      ...Object.fromEntries(colours),
    },
  };
}

/** A palette as CSS custom properties (CSS Custom Properties Level 1; colours of CSS Color 4). */
export function paletteCss(palette: readonly PaletteEntry[], title: string): string {
  const lines = palette.map((entry) => `  --${tokenName(entry.name)}: ${entry.hex}; /* ${aboutOf(entry)} */`);
  return `/* Colours that carry “${title.replace(/[*/]/g, '-')}” */\n:root {\n${lines.join('\n')}\n}\n`;
}

/** Letters, digits and hyphens: what both formats take without escapes. */
function tokenName(name: string): string {
  return name.replace(/[^a-z0-9]+/gi, '-').toLowerCase();
}

function sixPlaces(v: number): number {
  return Math.round(1e6 * v) / 1e6;
}

const ROLES = {
  family: 'main colour of a hue family',
  value: 'another value of the picture',
  accent: 'accent',
} as const;

function aboutOf({ share, role }: PaletteEntry): string {
  const part = 100 * share;
  return `${part < 1 ? part.toFixed(1) : Math.round(part)} % of the picture, ${ROLES[role]}`;
}
