import './rework.css';
import { useCallback, useEffect, useMemo, useState } from 'react';
import { recipeOf } from '../../document/recipe.ts';
import type { Work } from '../../document/work.ts';
import { Frame } from '../../parts/Frame.tsx';
import { Headline } from '../../parts/Headline.tsx';
import { NotesPart } from '../../parts/NotesPart.tsx';
import { Nearness } from '../../parts/PictureWall.tsx';
import { Stage } from '../../parts/stage/Stage.tsx';
import { TaskLine } from '../../parts/stage/TaskLine.tsx';
import { giveUpTask } from '../../parts/stage/task.ts';
import type { StageEdit } from '../../parts/stage/usePainting.ts';
import { WayAround } from '../../parts/WayAround.tsx';
import type { OpenedPicture, PictureWindow } from '../../picture/desk.ts';
import { pictures } from '../../state/desks.ts';
import { leaveEdit, showEdit, targetSpace, useRework, works } from '../../state/rework.ts';
import { useSession } from '../../state/session.ts';
import { AddStep } from './AddStep.tsx';
import { AfterReadings } from './AfterReadings.tsx';
import { BeforeButton, CompareWords, useHeldKey } from './Compare.tsx';
import { OptionSheet } from './OptionSheet.tsx';
import { ProposalPart } from './ProposalPart.tsx';
import { StepNote } from './StepNote.tsx';
import { useArea } from './useArea.ts';
import { WritePart } from './WritePart.tsx';

/** The picture as its edit makes it, and the edit as notes beside it. */
export default function Rework({ work, picture }: { work: Work; picture: OpenedPicture }) {
  const { draft, space: chosenSpace, image, imageOf, onCard, compare, held, pace, part } = useRework();
  const pointedNote = useSession((session) => session.pointedNote);
  const recipe = draft ?? recipeOf(work);
  const space = targetSpace(work, chosenSpace);
  const dragging = draft !== null;
  const [sheet, setSheet] = useState<number | null>(null);
  useHeldKey();

  useEffect(() => showEdit(picture, recipe, dragging, space), [picture, recipe, dragging, space]);
  useEffect(
    () => () => {
      leaveEdit();
      giveUpTask();
    },
    [],
  );

  const window = useCallback(
    (wish: PictureWindow) => pictures.desk.editedWindow(recipe, space, wish),
    [recipe, space],
  );
  const edited = works(recipe);
  // biome-ignore lint/correctness/useExhaustiveDependencies: a canvas that was drawn anew is the same canvas
  const edit = useMemo(
    (): StageEdit | null =>
      edited && !held
        ? {
            image,
            window: dragging ? null : window,
            fade: compare === 'fade' && !stillWanted() ? pace : null,
            part: compare === 'fade' ? part : 1,
          }
        : null,
    [edited, held, image, imageOf, dragging, window, compare, pace, part],
  );
  const pointed = stepNamed(pointedNote);
  const area = useArea(pointed === null || dragging ? undefined : recipe.steps[pointed], pointed ?? -1);
  const side = compare === 'side' && edited;

  return (
    <Frame
      wall={
        <>
          <Headline work={work} />
          {sheet !== null && recipe.steps[sheet] ? (
            <OptionSheet work={work} at={sheet} onClose={() => setSheet(null)} />
          ) : (
            <div
              className={side ? 'stage-place pair' : 'stage-place'}
              data-quick={imageOf === recipe ? '' : undefined}
            >
              {side && <Stage picture={picture} findings={[]} shown={null} twin />}
              {side && (
                <p className="pair-words caption">
                  <span>before</span>
                  <span>with the edit</span>
                </p>
              )}
              <Stage picture={picture} findings={[]} shown={null} edit={edit} area={area} />
              <TaskLine />
            </div>
          )}
          <Nearness picture={picture}>{edited && !side && sheet === null && <BeforeButton />}</Nearness>
        </>
      }
      margin={
        <>
          <NotesPart title="Edit" label="The edit">
            <p className="quiet">
              {recipe.steps.length === 0
                ? 'The picture is as you painted it. Every step can be changed, moved or removed later.'
                : 'Drag a value where it stands, or tap it.'}
            </p>
            <ul className="notes">
              {recipe.steps.map((step, at) => (
                <StepNote
                  // biome-ignore lint/suspicious/noArrayIndexKey: steps have no names, their place in the list is their name
                  key={at}
                  work={work}
                  step={step}
                  at={at}
                  count={recipe.steps.length}
                  onOptions={() => setSheet(at)}
                />
              ))}
            </ul>
            <ProposalPart work={work} />
            <AddStep work={work} />
          </NotesPart>
          <section className="rest-part" aria-label="What the edit does, and the way around">
            {edited && <CompareWords />}
            {edited && !onCard && (
              <p className="caption quiet">
                No graphics card helps here: while you drag, the picture is coarser and follows more slowly.
                What is written is the same.
              </p>
            )}
            {edited && <AfterReadings />}
            <WritePart work={work} picture={picture} />
            <WayAround />
          </section>
        </>
      }
    />
  );
}

/** True for those who want nothing to move by itself. */
function stillWanted(): boolean {
  return matchMedia('(prefers-reduced-motion: reduce)').matches;
}

/** "step 2" is 2. */
function stepNamed(note: string | null): number | null {
  return note?.startsWith('step ') ? Number(note.slice(5)) : null;
}
