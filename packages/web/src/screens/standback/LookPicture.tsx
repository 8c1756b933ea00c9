import { type KeyboardEvent, type PointerEvent, useEffect, useRef, useState } from 'react';
import { arrowed } from '../../parts/stage/arrows.ts';
import { veilWithRim } from '../../parts/stage/veil.ts';
import { screenSpace } from '../../picture/client.ts';
import type { OpenedPicture, SeenMap } from '../../picture/desk.ts';
import { useSettings } from '../../state/settings.ts';

/** The whole picture on the wall, with marks and a map over it; a tap or the keyboard points at a place. */
export function LookPicture({
  picture,
  mirrored,
  marks,
  map,
  asking,
  onPoint,
}: {
  picture: OpenedPicture;
  mirrored: boolean;
  marks: readonly (readonly [number, number])[];
  map: SeenMap | null;
  /** What is asked, when a place is to be pointed at. */
  asking: string | null;
  onPoint: (place: [number, number]) => void;
}) {
  const [cross, setCross] = useState<[number, number] | null>(null);
  const canvas = useRef<HTMLCanvasElement>(null);
  const wall = useSettings((settings) => settings.wall);
  const { width, height } = picture.facts;

  // biome-ignore lint/correctness/useExhaustiveDependencies: the wall's grey is read from the page, whose wall it names
  useEffect(() => {
    const context = canvas.current?.getContext('2d', { colorSpace: screenSpace() });
    if (!context || picture.bitmap.width === 0) return;
    const { width: w, height: h } = picture.bitmap;
    context.clearRect(0, 0, w, h);
    context.drawImage(picture.bitmap, 0, 0);
    const grey = getComputedStyle(document.documentElement).getPropertyValue('--wall');
    context.imageSmoothingQuality = 'high';
    if (map) context.drawImage(veilWithRim(map, grey, w, h), 0, 0);
  }, [picture, map, wall]);

  // The mark moves as it is seen: a mirrored picture turns its sides around.
  const own = ([x, y]: readonly [number, number]): [number, number] => [mirrored ? 1 - x : x, y];
  const onPointerUp = (event: PointerEvent<HTMLDivElement>): void => {
    if (asking === null || event.button !== 0) return;
    const box = event.currentTarget.getBoundingClientRect();
    const inside = (value: number): number => Math.min(1, Math.max(0, value));
    onPoint(
      own([inside((event.clientX - box.left) / box.width), inside((event.clientY - box.top) / box.height)]),
    );
  };
  const onKeyDown = (event: KeyboardEvent): void => {
    if (asking === null) return;
    const from = cross ?? [0.5, 0.5];
    const to = arrowed(event, from);
    if (to) setCross(to);
    else if (event.key === 'Enter' || event.key === ' ') onPoint(own(from));
    else return;
    event.preventDefault();
    event.stopPropagation();
  };

  return (
    <div className="look-place">
      {/* biome-ignore lint/a11y/noStaticElementInteractions: its role follows what is asked */}
      {/* biome-ignore lint/a11y/useAriaPropsSupportedByRole: its role follows what is asked */}
      <div
        className="look-picture"
        style={{ '--ratio': width / height } as React.CSSProperties}
        data-asking={asking ? true : undefined}
        role={asking ? 'application' : 'img'}
        aria-label={
          asking
            ? `${asking} Arrows move a mark over the picture, Enter sets it.`
            : `The picture ${picture.facts.name}`
        }
        tabIndex={asking ? 0 : undefined}
        onPointerUp={onPointerUp}
        onKeyDown={onKeyDown}
        onBlur={() => setCross(null)}
      >
        <canvas
          ref={canvas}
          width={picture.bitmap.width || 1}
          height={picture.bitmap.height || 1}
          data-mirrored={mirrored || undefined}
          aria-hidden
        />
        {marks.map((mark) => (
          <Mark key={mark.join(' ')} at={own(mark)} />
        ))}
        {cross && <Mark at={cross} cross />}
      </div>
    </div>
  );
}

function Mark({ at: [x, y], cross = false }: { at: readonly [number, number]; cross?: boolean }) {
  return (
    <span
      className={cross ? 'look-mark cross' : 'look-mark'}
      style={{ left: `${100 * x}%`, top: `${100 * y}%` }}
      aria-hidden="true"
    />
  );
}
