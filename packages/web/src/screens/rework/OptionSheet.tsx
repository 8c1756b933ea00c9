import { type OptionAxis, optionAxes, unitAfter } from '@halflight/engine';
import { proxy } from 'comlink';
import { useRef } from 'react';
import { recipeOf } from '../../document/recipe.ts';
import type { Work } from '../../document/work.ts';
import { number } from '../../parts/ReadingDetails.tsx';
import { OptionGrid } from '../../parts/sheet/OptionGrid.tsx';
import { useMade } from '../../parts/sheet/useMade.ts';
import type { SheetOption } from '../../picture/edit-desk.ts';
import { pictures } from '../../state/desks.ts';
import { changeStep, titleOf } from '../../state/rework.ts';
import { say } from '../../state/session.ts';

/** Pictures in a row of a sheet with one direction. */
const ALONE_COLUMNS = 4;

/** Small pictures of one step's settings in place of the picture. Choosing one closes the sheet; the rest are gone. */
export function OptionSheet({ work, at, onClose }: { work: Work; at: number; onClose: () => void }) {
  const step = useRef(recipeOf(work).steps[at]).current;
  const { across, down } = useRef(optionAxes(step)).current;
  const { options } = useMade<SheetOption>((each) =>
    pictures.desk.options(recipeOf(work), at, work.intent, work.answers, proxy(each)),
  );
  const places = Array.from({ length: across.values.length * (down?.values.length ?? 1) }, (_, k) => ({
    column: k % across.values.length,
    row: Math.floor(k / across.values.length),
  }));
  const made = places.map(({ column, row }) => options.find((it) => it.column === column && it.row === row));
  const close = (): void => {
    onClose();
    requestAnimationFrame(() => document.querySelector<HTMLElement>(`[data-anchor="step ${at}"]`)?.focus());
  };
  return (
    <OptionGrid
      label={`Options of ${titleOf(step)}`}
      columns={down ? across.values.length : ALONE_COLUMNS}
      options={places.map((place, index) => ({
        key: `${place.row} ${place.column}`,
        words: wordsOf(across, down, place),
        distance: made[index]?.distance ?? null,
        bitmap: made[index]?.bitmap,
      }))}
      onChoose={(index) => {
        const option = made[index];
        if (!option) return;
        changeStep(work, at, option.step);
        say('Chosen.');
        close();
      }}
      onClose={close}
      intro={
        <>
          {titleOf(step)}: {across.label} from left to right{down && `, ${down.label} from top to bottom`}.
          Arrows move, Enter chooses.{' '}
          <button type="button" className="clause" onClick={close}>
            Leave it as it is
          </button>
          .
        </>
      }
    />
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
