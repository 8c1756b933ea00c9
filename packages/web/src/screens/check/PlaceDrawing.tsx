import type { Drawing as DrawingData, Place } from '@halflight/engine';
import { useEffect, useState } from 'react';
import { Drawing } from '../../parts/Drawing.tsx';
import { pictures } from '../../state/desks.ts';
import { useSession } from '../../state/session.ts';

/** How the surface of a flagged place goes from light into shade: the scene's way and the painted way. */
export function PlaceDrawing({ place: { x, y } }: { place: Place }) {
  const seen = useSession((session) => session.seen);
  const work = useSession((session) => session.history?.present);
  const [drawing, setDrawing] = useState<DrawingData | null>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: it is drawn again when the readings were made again
  useEffect(() => {
    if (!work) return;
    let wanted = true;
    pictures.desk
      .placeDrawing(x, y, work.intent, work.answers)
      .then((made) => wanted && setDrawing(made))
      .catch(() => undefined);
    return () => {
      wanted = false;
    };
  }, [x, y, seen]);
  return drawing && <Drawing drawing={drawing} reading="light" />;
}
