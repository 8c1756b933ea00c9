import cyrillic400 from '@fontsource/source-sans-3/files/source-sans-3-cyrillic-400-normal.woff?url';
import cyrillic600 from '@fontsource/source-sans-3/files/source-sans-3-cyrillic-600-normal.woff?url';
import cyrillicExt400 from '@fontsource/source-sans-3/files/source-sans-3-cyrillic-ext-400-normal.woff?url';
import cyrillicExt600 from '@fontsource/source-sans-3/files/source-sans-3-cyrillic-ext-600-normal.woff?url';
import greek400 from '@fontsource/source-sans-3/files/source-sans-3-greek-400-normal.woff?url';
import greek600 from '@fontsource/source-sans-3/files/source-sans-3-greek-600-normal.woff?url';
import latin400 from '@fontsource/source-sans-3/files/source-sans-3-latin-400-normal.woff?url';
import latin600 from '@fontsource/source-sans-3/files/source-sans-3-latin-600-normal.woff?url';
import latinExt400 from '@fontsource/source-sans-3/files/source-sans-3-latin-ext-400-normal.woff?url';
import latinExt600 from '@fontsource/source-sans-3/files/source-sans-3-latin-ext-600-normal.woff?url';
import vietnamese400 from '@fontsource/source-sans-3/files/source-sans-3-vietnamese-400-normal.woff?url';
import vietnamese600 from '@fontsource/source-sans-3/files/source-sans-3-vietnamese-600-normal.woff?url';
import type { PageFonts } from '@halflight/pages';

const FILES = {
  regular: [latin400, latinExt400, greek400, cyrillic400, cyrillicExt400, vietnamese400],
  strong: [latin600, latinExt600, greek600, cyrillic600, cyrillicExt600, vietnamese600],
};

/** The typeface of pages, from the app's own files. */
export async function pageFonts(): Promise<PageFonts> {
  const all = (addresses: readonly string[]): Promise<Uint8Array[]> =>
    Promise.all(
      addresses.map(async (address) => {
        const response = await fetch(new URL(address, import.meta.url));
        if (!response.ok)
          throw new Error('The typeface of the pages could not be fetched. Load the app once more.');
        return new Uint8Array(await response.arrayBuffer());
      }),
    );
  const [regular, strong] = await Promise.all([all(FILES.regular), all(FILES.strong)]);
  return { regular, strong };
}
