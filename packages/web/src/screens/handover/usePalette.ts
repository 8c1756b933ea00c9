import type { PaletteEntry, Recipe } from '@halflight/engine';
import { useEffect, useState } from 'react';
import type { OpenedPicture } from '../../picture/desk.ts';
import { pictures } from '../../state/desks.ts';

/** The colours that carry the edited picture; null while they are counted. */
export function usePalette(picture: OpenedPicture, recipe: Recipe): readonly PaletteEntry[] | null {
  const [palette, setPalette] = useState<readonly PaletteEntry[] | null>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: another picture has other colours
  useEffect(() => {
    let wanted = true;
    setPalette(null);
    pictures.desk
      .palette(recipe)
      .then((entries) => wanted && setPalette(entries))
      .catch(() => undefined);
    return () => {
      wanted = false;
    };
  }, [picture, recipe]);
  return palette;
}
