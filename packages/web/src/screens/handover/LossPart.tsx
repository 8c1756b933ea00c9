import { percent, type Recipe, stepKind } from '@halflight/engine';
import { useEffect } from 'react';
import { NoteFrame } from '../../parts/NoteFrame.tsx';
import type { OpenedPicture } from '../../picture/desk.ts';
import { pictures } from '../../state/desks.ts';
import { perform } from '../../state/edit.ts';
import { setHandover, useHandover } from '../../state/handover.ts';
import { set, trouble, useSession } from '../../state/session.ts';
import { spaceWords } from './words.ts';

/** Share from which a loss is spoken of. */
const TOLD = 0.005;

/** What the space of the file loses, where, and what would calm exactly that. */
export function LossPart({ picture, recipe }: { picture: OpenedPicture; recipe: Recipe }) {
  const { settings, profile, loss, calming } = useHandover();
  const { writable, openNote } = useSession();
  const { space } = settings;
  const open = openNote === NAME;
  // biome-ignore lint/correctness/useExhaustiveDependencies: only what changes the colours is looked at again
  useEffect(() => {
    let wanted = true;
    setHandover({ loss: null, calming: null });
    pictures.desk
      .loss(recipe, settings, profile)
      .then((loss) => wanted && setHandover({ loss }))
      .catch((error: Error) => wanted && trouble('writing', error.message));
    return () => {
      wanted = false;
    };
  }, [picture, recipe, space, profile]);
  useEffect(() => setHandover({ shown: open }), [open]);

  const find = (): void => {
    pictures.desk
      .calm(recipe, settings, profile)
      .then((calming) => setHandover({ calming }))
      .catch((error: Error) => trouble('writing', error.message));
  };
  return (
    <NoteFrame name={NAME} sentence={sentenceOf(loss?.share ?? null, spaceWords(settings))}>
      {loss && loss.share >= TOLD && (
        <>
          <p>The places that lose something keep their colour on the picture; the others fade.</p>
          {calming === null ? (
            <p>
              <button type="button" className="answer" onClick={find}>
                find the smallest step that calms exactly these colours
              </button>
            </p>
          ) : calming.steps.length === 0 ? (
            <p>No small step brings them in: choose a wider space, or repaint them calmer.</p>
          ) : (
            <p>
              {calming.steps.map(({ kind }) => stepKind(kind).title).join(', ')}: with it{' '}
              {percent(calming.after)} is lost
              {calming.enough ? '' : '; more than that no single step brings in'}.{' '}
              {writable && (
                <button
                  type="button"
                  className="answer"
                  onClick={() => {
                    perform({
                      kind: 'takeRecipe',
                      title: 'calming what the space loses',
                      recipe: { ...recipe, steps: [...recipe.steps, ...calming.steps] },
                    });
                    set({ openNote: NAME });
                  }}
                >
                  take it into the edit
                </button>
              )}
            </p>
          )}
        </>
      )}
      <p className="caption quiet">
        A colour counts as lost when it changes by more than 2 CIEDE2000 on its way (common practice, no
        source).
      </p>
    </NoteFrame>
  );
}

const NAME = 'handover loss';

function sentenceOf(share: number | null, space: string): string {
  if (share === null) return `What ${space} loses is being looked at.`;
  if (share < TOLD) return `Nothing that can be seen is lost in ${space}.`;
  return `${percent(share)} of the picture loses colour in ${space}.`;
}
