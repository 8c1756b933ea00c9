import { SITUATIONS } from '@halflight/engine';
import { proxy } from 'comlink';
import { recipeOf } from '../../document/recipe.ts';
import type { Work } from '../../document/work.ts';
import { OptionGrid } from '../../parts/sheet/OptionGrid.tsx';
import { useMade } from '../../parts/sheet/useMade.ts';
import type { SheetLight } from '../../picture/edit-desk.ts';
import { decide } from '../../state/decide.ts';
import { pictures } from '../../state/desks.ts';
import { perform } from '../../state/edit.ts';
import { say } from '../../state/session.ts';

const COLUMNS = 4;

/**
 * The whole painting in the lights of the table, in place of the picture. The one that is chosen becomes the decided
 * light, and, if wanted, the steps that turn the picture into it go into the edit.
 */
export function LightSheet({ work, turn, onClose }: { work: Work; turn: boolean; onClose: () => void }) {
  const { options, done } = useMade<SheetLight>((each) =>
    pictures.desk.lights(recipeOf(work), work.intent, work.answers, proxy(each)),
  );
  const close = (): void => {
    onClose();
    requestAnimationFrame(() => document.querySelector<HTMLElement>('[data-light-sheet]')?.focus());
  };
  const leave = (
    <button type="button" className="clause" onClick={close}>
      Leave the light as it is
    </button>
  );
  if (done && options.length === 0)
    return (
      <section className="sheet" aria-label="Lights">
        <p>Lit can’t be told from shaded in this picture, so that no light can be turned. {leave}.</p>
      </section>
    );
  // They come in the table's order: one that was passed over is not offered.
  const reached = done
    ? SITUATIONS.length
    : SITUATIONS.findIndex(({ name }) => name === options.at(-1)?.name) + 1;
  const lights = SITUATIONS.map(({ name, title }, at) => ({
    key: name,
    words: title,
    passed: at < reached,
    made: options.find((option) => option.name === name),
  }));
  const missing = lights.filter(({ passed, made }) => passed && !made).map(({ words }) => words);
  const offered = lights.filter(({ passed, made }) => made || !passed);
  return (
    <OptionGrid
      label="Lights"
      columns={COLUMNS}
      options={offered.map(({ key, words, made }) => ({
        key,
        words,
        distance: made?.distance ?? null,
        bitmap: made?.bitmap,
      }))}
      onChoose={(index) => {
        const { made } = offered[index];
        if (!made) return;
        const { name, recipe } = made;
        decide('light', { kind: 'situation', name });
        if (turn) perform({ kind: 'takeRecipe', title: 'turning the light', recipe });
        say(turn ? 'Chosen; the edit turns the light.' : 'Chosen.');
        close();
      }}
      onClose={close}
      intro={
        <>
          The whole painting in other lights: values are kept, only colour changes. Arrows move, Enter
          chooses. {leave}.
          {done && missing.length > 0 && (
            <>
              {' '}
              Not offered, since so warm a light can’t be turned into a cool one well: {missing.join('; ')}.
            </>
          )}
        </>
      }
    />
  );
}
