import type { Finding } from '@halflight/engine';
import { useEffect, useState } from 'react';
import type { OpenedPicture } from '../../picture/desk.ts';
import { pictures } from '../../state/desks.ts';
import type { Wall } from '../../state/settings.ts';
import { veilOfMap, veilOfPlaces } from './veil.ts';

/** The veil that shows where a finding is; null for none. */
export function useVeil(
  picture: OpenedPicture,
  finding: Finding | null,
  wall: Wall,
): HTMLCanvasElement | null {
  const [veil, setVeil] = useState<HTMLCanvasElement | null>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the wall's grey is read from the page, whose wall it names
  useEffect(() => {
    setVeil(null);
    if (finding === null) return;
    let wanted = true;
    const grey = getComputedStyle(document.documentElement).getPropertyValue('--wall');
    const make = async (): Promise<void> => {
      const map = finding.map
        ? await pictures.desk.map(finding.reading, finding.map).catch(() => null)
        : null;
      if (!wanted) return;
      const { width, height } = picture.facts;
      if (map) setVeil(veilOfMap(map, grey));
      else if (finding.places?.length) setVeil(veilOfPlaces(finding.places, width / height, grey));
    };
    void make();
    return () => {
      wanted = false;
    };
  }, [picture, finding, wall]);
  return veil;
}
