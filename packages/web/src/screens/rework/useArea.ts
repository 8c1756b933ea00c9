import type { Recipe, Step } from '@halflight/engine';
import { useEffect, useState } from 'react';
import type { SeenMap } from '../../picture/desk.ts';
import { pictures } from '../../state/desks.ts';

/** Where a step works, as a map; null while it is made and when it works everywhere. */
export function useArea(step: Step | undefined, at: number): SeenMap | null {
  const [map, setMap] = useState<SeenMap | null>(null);
  const area = JSON.stringify(step?.area?.parts.length ? step.area : null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the area is compared by what is in it, and the rest of the step does not matter
  useEffect(() => {
    setMap(null);
    if (!step || area === 'null') return;
    let wanted = true;
    const alone: Recipe = { schema: 'halflight/recipe@1', steps: [step] };
    pictures.desk
      .areaMap(alone, 0)
      .then((found) => wanted && setMap(found))
      .catch(() => undefined);
    return () => {
      wanted = false;
    };
  }, [area, at]);
  return map;
}
