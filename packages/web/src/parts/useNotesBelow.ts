import { useSyncExternalStore } from 'react';

const query = '(max-aspect-ratio: 1/1)';

/** True where the notes lie below the picture: on a page that is higher than wide. */
export function useNotesBelow(): boolean {
  return useSyncExternalStore(
    (changed) => {
      const media = matchMedia(query);
      media.addEventListener('change', changed);
      return () => media.removeEventListener('change', changed);
    },
    () => matchMedia(query).matches,
  );
}
