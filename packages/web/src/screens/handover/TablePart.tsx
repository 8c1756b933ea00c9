import { type HandoverSettings, listOf, type Recipe, stepKind, workingSteps } from '@halflight/engine';
import { useEffect, useState } from 'react';
import { NoteFrame } from '../../parts/NoteFrame.tsx';
import type { OpenedPicture } from '../../picture/desk.ts';
import { pictures } from '../../state/desks.ts';
import { useHandover } from '../../state/handover.ts';
import { works } from '../../state/rework.ts';
import { save, type Thing } from '../../state/write.ts';

/** The edit as a table for other programs, and which steps can't be in one. */
export function TablePart({
  picture,
  recipe,
  title,
}: {
  picture: OpenedPicture;
  recipe: Recipe;
  title: string;
}) {
  const { settings } = useHandover();
  const note = useTableNote(settings, picture);
  if (!works(recipe)) return null;
  const used = workingSteps(recipe);
  const inArea = used.filter(({ area }) => area && area.parts.length > 0);
  const left = listOf(inArea.map(({ kind }) => `“${stepKind(kind).title}”`));
  const stem = picture.facts.name.replace(/\.[A-Za-z0-9]{1,5}$/, '');
  const thing = (ending: 'clf' | 'icc'): Thing => {
    const name = `${stem}.${ending}`;
    return {
      name,
      async make() {
        const table = await pictures.desk.table(recipe, settings, `${title}, its edit`);
        return table && { name, blob: table[ending], readBack: true };
      },
    };
  };
  const none = inArea.length === used.length;
  return (
    <NoteFrame name="handover table" sentence="The edit as a table, for a series or another program.">
      {left && (
        <p>
          {left} {inArea.length === 1 ? 'works' : 'work'} in an area only, and can’t be in a table.
        </p>
      )}
      {!none && note && <p>{note}</p>}
      {none ? (
        <p>Nothing is left that a table could hold.</p>
      ) : (
        <p className="answers">
          <button type="button" className="answer" onClick={() => void save(thing('clf'))}>
            as a lookup table (CLF)
          </button>
          <button type="button" className="answer" onClick={() => void save(thing('icc'))}>
            as an abstract profile (ICC)
          </button>
        </p>
      )}
    </NoteFrame>
  );
}

/** What to know of the table's code values; null while it is not known, and where there is nothing to know. */
function useTableNote(settings: HandoverSettings, picture: OpenedPicture): string | null {
  const [note, setNote] = useState<string | null>(null);
  const { space } = settings;
  // biome-ignore lint/correctness/useExhaustiveDependencies: only the space decides, the file's and the picture's
  useEffect(() => {
    let wanted = true;
    pictures.desk
      .tableNote(settings)
      .then((it) => wanted && setNote(it))
      .catch(() => undefined);
    return () => {
      wanted = false;
    };
  }, [space, picture]);
  return note;
}
