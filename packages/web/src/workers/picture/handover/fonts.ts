import { openTypeface, type Typeface } from '@halflight/pages';
import { pageFonts } from '../../class/fonts.ts';

let opened: Promise<Typeface> | null = null;

/** The bundled typeface as pages set it, opened once. */
export function typeface(): Promise<Typeface> {
  opened ??= pageFonts()
    .then(openTypeface)
    .catch((error: unknown) => {
      opened = null;
      throw error;
    });
  return opened;
}
