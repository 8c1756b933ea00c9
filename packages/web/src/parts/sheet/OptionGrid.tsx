import { type KeyboardEvent, type ReactNode, useEffect, useRef, useState } from 'react';
import { number } from '../ReadingDetails.tsx';
import './sheet.css';

/** One small picture of a sheet; without a bitmap it is still being made. */
export interface GridOption {
  readonly key: string;
  readonly words: string;
  /** Steps from the intended mood; null when none is intended. */
  readonly distance: number | null;
  readonly bitmap: ImageBitmap | undefined;
}

/** Small pictures in place of the picture, of which one is chosen: arrows move, Enter chooses, Escape leaves. */
export function OptionGrid({
  label,
  intro,
  columns,
  options,
  onChoose,
  onClose,
}: {
  label: string;
  intro: ReactNode;
  columns: number;
  options: readonly GridOption[];
  onChoose: (index: number) => void;
  onClose: () => void;
}) {
  const [marked, setMarked] = useState(0);
  const grid = useRef<HTMLUListElement>(null);
  const nearest = nearestOf(options);
  const onKeyDown = (event: KeyboardEvent): void => {
    const by: Record<string, number> = {
      ArrowLeft: -1,
      ArrowRight: 1,
      ArrowUp: -columns,
      ArrowDown: columns,
    };
    if (event.key === 'Escape') onClose();
    else if (event.key in by) {
      const next = marked + by[event.key];
      if (next >= 0 && next < options.length) {
        setMarked(next);
        grid.current?.querySelectorAll<HTMLElement>('.option')[next]?.focus();
      }
    } else return;
    event.preventDefault();
    event.stopPropagation();
  };
  useEffect(() => grid.current?.querySelector<HTMLElement>('.option')?.focus(), []);

  return (
    <section className="sheet" aria-label={label}>
      <p className="sheet-words">{intro}</p>
      <ul
        ref={grid}
        className="sheet-grid"
        style={{ '--columns': columns } as React.CSSProperties}
        onKeyDown={onKeyDown}
      >
        {options.map((option, index) => (
          <li key={option.key}>
            <OptionButton
              option={option}
              nearest={option === nearest}
              reachable={index === marked}
              onFocus={() => setMarked(index)}
              onChoose={() => onChoose(index)}
            />
          </li>
        ))}
      </ul>
    </section>
  );
}

function OptionButton({
  option: { words, distance, bitmap },
  nearest,
  reachable,
  onFocus,
  onChoose,
}: {
  option: GridOption;
  nearest: boolean;
  reachable: boolean;
  onFocus: () => void;
  onChoose: () => void;
}) {
  const ref = useRef<HTMLCanvasElement>(null);
  useEffect(() => {
    const canvas = ref.current;
    if (!canvas || !bitmap) return;
    canvas.width = bitmap.width;
    canvas.height = bitmap.height;
    canvas.getContext('2d')?.drawImage(bitmap, 0, 0);
  }, [bitmap]);
  const far =
    distance === null ? '' : nearest ? 'nearest to the mood' : `${number(distance, 1)} from the mood`;
  return (
    <button
      type="button"
      className="option"
      tabIndex={reachable ? 0 : -1}
      aria-disabled={bitmap === undefined}
      onFocus={onFocus}
      onClick={() => bitmap && onChoose()}
    >
      <canvas ref={ref} aria-hidden />
      <span className="option-words">
        <span>{words}</span>
        {far && <span>{far}</span>}
      </span>
    </button>
  );
}

/** The option that lies nearest to the mood, once there are several to choose from. */
function nearestOf(options: readonly GridOption[]): GridOption | null {
  const told = options.filter(({ distance, bitmap }) => distance !== null && bitmap);
  if (told.length < 2) return null;
  return told.reduce((a, b) => ((b.distance as number) < (a.distance as number) ? b : a));
}
