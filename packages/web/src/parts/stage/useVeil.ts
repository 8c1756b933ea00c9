import type { Finding } from '@halflight/engine';
import { useEffect, useState } from 'react';
import type { OpenedPicture, SeenMap } from '../../picture/desk.ts';
import { pictures } from '../../state/desks.ts';
import type { Wall } from '../../state/settings.ts';
import { veilOfMap, veilOfPlaces, veilWithRim } from './veil.ts';

/** The veil that shows where a finding or an area is; null for none. */
export function useVeil(
  picture: OpenedPicture,
  finding: Finding | null,
  wall: Wall,
  area: SeenMap | null,
): HTMLCanvasElement | null {
  const { reading, map: name, places } = finding ?? {};
  const [veil, setVeil] = useState<HTMLCanvasElement | null>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the wall's grey is read from the page, whose wall it names
  useEffect(() => {
    setVeil(null);
    let wanted = true;
    const grey = getComputedStyle(document.documentElement).getPropertyValue('--wall');
    const make = async (): Promise<void> => {
      if (area) {
        setVeil(veilWithRim(area, grey, ...sizeOf(picture)));
        return;
      }
      const map = reading && name ? await pictures.desk.map(reading, name).catch(() => null) : null;
      if (!wanted) return;
      const { width, height } = picture.facts;
      // Findings have the outlines of their places as well.
      if (map) setVeil(veilOfMap(map, grey));
      else if (places?.length) setVeil(veilOfPlaces(places, width / height, grey));
    };
    void make();
    return () => {
      wanted = false;
    };
    // With a map the places make no difference to the veil: it stays when they are found later.
  }, [picture, reading, name, name ? null : places, wall, area]);
  return veil;
}

/** Pixels of a veil with lines: as many as a screen shows of the picture, at most. */
function sizeOf({ facts: { width, height } }: OpenedPicture): [number, number] {
  const scale = Math.min(1, 1400 / Math.max(width, height));
  return [Math.max(1, Math.round(width * scale)), Math.max(1, Math.round(height * scale))];
}
