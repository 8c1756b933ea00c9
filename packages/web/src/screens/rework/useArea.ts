import type { Step } from '@halflight/engine';
import { useEffect, useState } from 'react';
import type { SeenMap } from '../../picture/desk.ts';
import { pictures } from '../../state/desks.ts';

/** Long side of the maps that show where a step works. */
const SHOWN_SIDE = 720;

/** Where a step works, as a map; null while it is made and when it works everywhere. */
export function useArea(step: Step | undefined, at: number): SeenMap | null {
  const [map, setMap] = useState<SeenMap | null>(null);
  const area = JSON.stringify(step?.area?.parts.length ? step.area : null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the area is compared by what is in it, and the rest of the step does not matter
  useEffect(() => {
    setMap(null);
    if (!step || area === 'null') return;
    let wanted = true;
    pictures.desk
      .areaMap(step, SHOWN_SIDE)
      .then((found) => wanted && setMap(found))
      .catch(() => undefined);
    return () => {
      wanted = false;
    };
  }, [area, at]);
  return map;
}
