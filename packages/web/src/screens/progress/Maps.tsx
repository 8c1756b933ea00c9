import { useEffect, useRef } from 'react';
import { veilWithRim } from '../../parts/stage/veil.ts';
import { screenSpace } from '../../picture/client.ts';
import type { SeenMap } from '../../picture/desk.ts';
import type { SeenComparison } from '../../picture/time-desk.ts';
import { useSettings } from '../../state/settings.ts';

/** Where it changed: seen from a distance, and only from close by. Elsewhere the picture fades into the wall. */
export function Maps({ comparison }: { comparison: SeenComparison }) {
  return (
    <div className="change-maps">
      <MapFigure comparison={comparison} map={comparison.far} words="changed for someone who stands back" />
      <MapFigure comparison={comparison} map={comparison.near} words="changed only for someone close by" />
    </div>
  );
}

function MapFigure({
  comparison: { bitmap },
  map,
  words,
}: {
  comparison: SeenComparison;
  map: SeenMap;
  words: string;
}) {
  const ref = useRef<HTMLCanvasElement>(null);
  const wall = useSettings((settings) => settings.wall);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the wall's grey is read from the page, whose wall it names
  useEffect(() => {
    const context = ref.current?.getContext('2d', { colorSpace: screenSpace() });
    if (!context || bitmap.width === 0) return;
    const grey = getComputedStyle(document.documentElement).getPropertyValue('--wall');
    context.clearRect(0, 0, bitmap.width, bitmap.height);
    context.imageSmoothingQuality = 'high';
    context.drawImage(bitmap, 0, 0);
    context.drawImage(veilWithRim(map, grey, bitmap.width, bitmap.height), 0, 0);
  }, [bitmap, map, wall]);
  const marked = map.data.reduce((sum, value) => sum + value, 0) / 255 / map.data.length;
  return (
    <figure>
      <canvas
        ref={ref}
        width={bitmap.width || 1}
        height={bitmap.height || 1}
        role="img"
        aria-label={`Where it ${words}: some ${Math.round(100 * marked)} % of the picture.`}
      />
      <figcaption className="caption">{words}</figcaption>
    </figure>
  );
}
