import type { Step } from '@halflight/engine';
import { useEffect, useRef } from 'react';
import { useArea } from './useArea.ts';
import { areaWords } from './words.ts';

/** The area of a step as a small picture: light where it works. */
export function AreaThumb({ step, at }: { step: Step; at: number }) {
  const map = useArea(step, at);
  const ref = useRef<HTMLCanvasElement>(null);
  useEffect(() => {
    const canvas = ref.current;
    const context = canvas?.getContext('2d');
    if (!canvas || !context || !map) return;
    canvas.width = map.width;
    canvas.height = map.height;
    const image = context.createImageData(map.width, map.height);
    for (let i = 0; i < map.data.length; i++) {
      // From the grey of the wall's dark to its light, so that it stays quiet beside the picture.
      image.data.fill(40 + (map.data[i] * 190) / 255, 4 * i, 4 * i + 3);
      image.data[4 * i + 3] = 255;
    }
    context.putImageData(image, 0, 0);
  }, [map]);
  return <canvas ref={ref} className="area-thumb" role="img" aria-label={`It works ${areaWords(step)}`} />;
}
