import cyrillic400 from '@fontsource/source-sans-3/files/source-sans-3-cyrillic-400-normal.woff?url';
import cyrillic600 from '@fontsource/source-sans-3/files/source-sans-3-cyrillic-600-normal.woff?url';
import greek400 from '@fontsource/source-sans-3/files/source-sans-3-greek-400-normal.woff?url';
import greek600 from '@fontsource/source-sans-3/files/source-sans-3-greek-600-normal.woff?url';
import latin400 from '@fontsource/source-sans-3/files/source-sans-3-latin-400-normal.woff?url';
import latin600 from '@fontsource/source-sans-3/files/source-sans-3-latin-600-normal.woff?url';
import more400 from '@fontsource/source-sans-3/files/source-sans-3-latin-ext-400-normal.woff?url';
import more600 from '@fontsource/source-sans-3/files/source-sans-3-latin-ext-600-normal.woff?url';
import { openTypeface, type Typeface } from '@halflight/pages';

let opened: Promise<Typeface> | null = null;

/** The bundled typeface as pages set it, fetched once from beside the app. */
export function typeface(): Promise<Typeface> {
  opened ??= open().catch((error: unknown) => {
    opened = null;
    throw error;
  });
  return opened;
}

async function open(): Promise<Typeface> {
  const read = (urls: readonly string[]): Promise<Uint8Array[]> =>
    Promise.all(
      urls.map(async (url) => {
        const answer = await fetch(url);
        if (!answer.ok) throw new Error('The typeface of pages could not be read. Reload the app once.');
        return new Uint8Array(await answer.arrayBuffer());
      }),
    );
  return openTypeface({
    regular: await read([latin400, more400, greek400, cyrillic400]),
    strong: await read([latin600, more600, greek600, cyrillic600]),
  });
}
