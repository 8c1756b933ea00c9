import { type OptionAxis, optionAxes } from '@halflight/engine';
import { proxy } from 'comlink';
import { type KeyboardEvent, useEffect, useRef, useState } from 'react';
import { recipeOf } from '../../document/recipe.ts';
import type { Work } from '../../document/work.ts';
import { number } from '../../parts/ReadingDetails.tsx';
import type { SheetOption } from '../../picture/edit-desk.ts';
import { pictures } from '../../state/desks.ts';
import { changeStep, titleOf } from '../../state/rework.ts';
import { say, trouble } from '../../state/session.ts';
import { unitAfter } from './words.ts';

/** Pictures in a row of a sheet with one direction. */
const ALONE_COLUMNS = 4;

/** Small pictures of one step's settings in place of the picture. Choosing one closes the sheet; the rest are gone. */
export function OptionSheet({ work, at, onClose }: { work: Work; at: number; onClose: () => void }) {
  const recipe = useRef(recipeOf(work)).current;
  const step = recipe.steps[at];
  const { across, down } = useRef(optionAxes(step)).current;
  const options = useOptions(work, at);
  const columns = down ? across.values.length : ALONE_COLUMNS;
  const places = Array.from({ length: across.values.length * (down?.values.length ?? 1) }, (_, k) => ({
    column: k % across.values.length,
    row: Math.floor(k / across.values.length),
  }));
  const [marked, setMarked] = useState(0);
  const grid = useRef<HTMLUListElement>(null);
  const nearest = nearestOf(options);

  const close = (): void => {
    onClose();
    requestAnimationFrame(() => document.querySelector<HTMLElement>(`[data-anchor="step ${at}"]`)?.focus());
  };
  const choose = (option: SheetOption): void => {
    changeStep(work, at, option.step);
    say('Chosen.');
    close();
  };
  const onKeyDown = (event: KeyboardEvent): void => {
    const by: Record<string, number> = {
      ArrowLeft: -1,
      ArrowRight: 1,
      ArrowUp: -columns,
      ArrowDown: columns,
    };
    if (event.key === 'Escape') close();
    else if (event.key in by) {
      const next = marked + by[event.key];
      if (next >= 0 && next < places.length) {
        setMarked(next);
        grid.current?.querySelectorAll<HTMLElement>('.option')[next]?.focus();
      }
    } else return;
    event.preventDefault();
    event.stopPropagation();
  };
  useEffect(() => grid.current?.querySelector<HTMLElement>('.option')?.focus(), []);

  return (
    <section className="sheet" aria-label={`Options of ${titleOf(step)}`}>
      <p className="sheet-words">
        {titleOf(step)}: {across.label} from left to right{down && `, ${down.label} from top to bottom`}.
        Arrows move, Enter chooses.{' '}
        <button type="button" className="clause" onClick={close}>
          Leave it as it is
        </button>
        .
      </p>
      <ul
        ref={grid}
        className="sheet-grid"
        style={{ '--columns': columns } as React.CSSProperties}
        onKeyDown={onKeyDown}
      >
        {places.map((place, index) => {
          const option = options.find((it) => it.column === place.column && it.row === place.row);
          return (
            <li key={`${place.row} ${place.column}`}>
              <OptionButton
                option={option}
                words={wordsOf(across, down, place)}
                nearest={option !== undefined && option === nearest}
                reachable={index === marked}
                onFocus={() => setMarked(index)}
                onChoose={choose}
              />
            </li>
          );
        })}
      </ul>
    </section>
  );
}

function OptionButton({
  option,
  words,
  nearest,
  reachable,
  onFocus,
  onChoose,
}: {
  option: SheetOption | undefined;
  words: string;
  nearest: boolean;
  reachable: boolean;
  onFocus: () => void;
  onChoose: (option: SheetOption) => void;
}) {
  const ref = useRef<HTMLCanvasElement>(null);
  useEffect(() => {
    const canvas = ref.current;
    if (!canvas || !option) return;
    const { width, height } = option.bitmap;
    canvas.width = width;
    canvas.height = height;
    canvas.getContext('2d')?.drawImage(option.bitmap, 0, 0);
  }, [option]);
  const distance = option?.distance;
  const far =
    distance == null ? '' : nearest ? 'nearest to the mood' : `${number(distance, 1)} from the mood`;
  return (
    <button
      type="button"
      className="option"
      tabIndex={reachable ? 0 : -1}
      aria-disabled={option === undefined}
      onFocus={onFocus}
      onClick={() => option && onChoose(option)}
    >
      <canvas ref={ref} aria-hidden />
      <span className="option-words">
        <span>{words}</span>
        {far && <span>{far}</span>}
      </span>
    </button>
  );
}

/** "40 %, hue 15°". */
function wordsOf(
  across: OptionAxis,
  down: OptionAxis | null,
  { column, row }: { column: number; row: number },
): string {
  const at = ({ label, unit, digits, values }: OptionAxis, index: number): string =>
    `${label} ${number(values[index], digits)}${unitAfter(unit)}`;
  return down ? `${at(across, column)}, ${at(down, row)}` : at(across, column);
}

/** The options of a step as they are made; they are stopped when the sheet goes. */
function useOptions(work: Work, at: number): readonly SheetOption[] {
  const [options, setOptions] = useState<readonly SheetOption[]>([]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the sheet shows what was when it was opened
  useEffect(() => {
    let wanted = true;
    const each = (option: SheetOption): void => {
      if (wanted) setOptions((old) => [...old, option]);
      else option.bitmap.close();
    };
    pictures.desk
      .options(recipeOf(work), at, work.intent, work.answers, proxy(each))
      .catch((error: Error) => trouble('reading', `The options could not be made: ${error.message}`));
    return () => {
      wanted = false;
      void pictures.desk.stopOptions();
      setOptions((old) => {
        for (const { bitmap } of old) bitmap.close();
        return [];
      });
    };
  }, [at]);
  return options;
}

/** The option that lies nearest to the mood, once there are several to choose from. */
function nearestOf(options: readonly SheetOption[]): SheetOption | null {
  const told = options.filter(({ distance }) => distance !== null);
  if (told.length < 2) return null;
  return told.reduce((a, b) => ((b.distance as number) < (a.distance as number) ? b : a));
}
