import '../rework/rework.css';
import './handover.css';
import { useCallback, useEffect, useMemo } from 'react';
import { recipeOf } from '../../document/recipe.ts';
import type { Work } from '../../document/work.ts';
import { Frame } from '../../parts/Frame.tsx';
import { Headline } from '../../parts/Headline.tsx';
import { NotesPart } from '../../parts/NotesPart.tsx';
import { Nearness } from '../../parts/PictureWall.tsx';
import { Stage } from '../../parts/stage/Stage.tsx';
import type { StageEdit } from '../../parts/stage/usePainting.ts';
import { Troubles } from '../../parts/Troubles.tsx';
import { Waiting } from '../../parts/Waiting.tsx';
import { WayAround } from '../../parts/WayAround.tsx';
import type { OpenedPicture, PictureWindow } from '../../picture/desk.ts';
import type { TargetSpace } from '../../picture/edit-desk.ts';
import { pictures } from '../../state/desks.ts';
import { setHandover, useHandover } from '../../state/handover.ts';
import { leaveEdit, showEdit, useRework, works } from '../../state/rework.ts';
import { stopWriting, useWrite } from '../../state/write.ts';
import { DeliveredWords, FilePart } from './FilePart.tsx';
import { LossPart } from './LossPart.tsx';
import { PalettePart } from './PalettePart.tsx';
import { RecordPart } from './RecordPart.tsx';
import { ReportPart } from './ReportPart.tsx';
import { TablePart } from './TablePart.tsx';

/** The picture as it will leave, and what leaves with it, in notes. */
export default function HandoverScreen({ work, picture }: { work: Work; picture: OpenedPicture }) {
  const { image, imageOf } = useRework();
  const { settings, loss, shown } = useHandover();
  const { running, done } = useWrite();
  const recipe = recipeOf(work);
  const space: TargetSpace = typeof settings.space === 'string' ? settings.space : 'own';

  useEffect(() => showEdit(picture, recipe, false, space), [picture, recipe, space]);
  useEffect(
    () => () => {
      leaveEdit();
      setHandover({ loss: null, calming: null, shown: false });
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
    (): StageEdit | null => (edited ? { image, window, fade: null, part: 1 } : null),
    [edited, image, imageOf, window],
  );

  return (
    <Frame
      wall={
        <>
          <Headline work={work} />
          <div className="stage-place" data-quick={imageOf === recipe ? '' : undefined}>
            <Stage
              picture={picture}
              findings={[]}
              shown={null}
              edit={edit}
              area={shown && loss && loss.share > 0 ? loss.map : null}
            />
          </div>
          <Nearness picture={picture} />
        </>
      }
      margin={
        <>
          <NotesPart title="Hand over">
            <p className="quiet">
              {edited
                ? 'The picture leaves with its edit.'
                : 'There is no edit: the picture leaves as it was painted.'}{' '}
              Every file is read back before it counts.
            </p>
            <Troubles at={['writing']} />
            {running ? (
              <Waiting what="Making the file" progress={running} onStop={stopWriting} />
            ) : (
              done && (
                <p className="lead" data-done>
                  {done}
                </p>
              )
            )}
            <ul className="notes handover">
              <FilePart picture={picture} recipe={recipe} />
              <LossPart picture={picture} recipe={recipe} />
              <PalettePart picture={picture} recipe={recipe} title={work.title} />
              <ReportPart work={work} recipe={recipe} />
              <RecordPart work={work} recipe={recipe} />
              <TablePart picture={picture} recipe={recipe} title={work.title} />
            </ul>
            <DeliveredWords work={work} />
          </NotesPart>
          <section className="rest-part" aria-label="The way around">
            <WayAround />
          </section>
        </>
      }
    />
  );
}
