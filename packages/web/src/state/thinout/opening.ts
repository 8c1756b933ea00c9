import { clearTroubles, trouble } from '../session.ts';
import { type NamedFile, takePictures } from './arranging.ts';
import { ownName } from './kept.ts';
import { take } from './taking.ts';

/** Takes files as layers: one layered file, or pictures; `flat` is the open picture, which may be one without a layer. */
export async function takeLayers(files: readonly NamedFile[], flat: NamedFile | null = null): Promise<void> {
  clearTroubles(['opening', 'reading', 'writing']);
  const layered = files.find(({ name }) => /\.ora$/i.test(name));
  if (!layered) await takePictures(files, flat);
  else if (files.length === 1) await take({ kind: 'file', ...layered }, ownName());
  else
    trouble(
      'opening',
      `“${layered.name}” is a layered file: open it alone, or PNGs of one size without it. Nothing was opened.`,
    );
}
