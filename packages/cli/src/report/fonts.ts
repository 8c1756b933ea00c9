import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import type { Typeface } from '@halflight/pages';

let opened: Promise<Typeface> | null = null;

/** The bundled typeface, read once. */
export function typeface(): Promise<Typeface> {
  opened ??= open();
  return opened;
}

async function open(): Promise<Typeface> {
  const { FONT_FILES, openTypeface } = await import('@halflight/pages');
  const { resolve } = createRequire(import.meta.url);
  const read = (names: readonly string[]): Promise<Uint8Array[]> =>
    Promise.all(
      names.map(
        async (name) => new Uint8Array(await readFile(resolve(`@fontsource/source-sans-3/files/${name}`))),
      ),
    );
  return openTypeface({ regular: await read(FONT_FILES.regular), strong: await read(FONT_FILES.strong) });
}
