import type { Work } from '../../document/work.ts';
import { Frame } from '../../parts/Frame.tsx';
import { Leader, spotOf } from '../../parts/Leader.tsx';
import { PictureWall } from '../../parts/PictureWall.tsx';
import { useNotesBelow } from '../../parts/useNotesBelow.ts';
import type { OpenedPicture } from '../../picture/desk.ts';
import { PLACE_NOTE } from '../../state/readings.ts';
import { useSession } from '../../state/session.ts';
import { Notes } from './Notes.tsx';

/** The picture with what stands between it and its intent, as notes in its margin. */
export function Check({ work, picture }: { work: Work; picture: OpenedPicture }) {
  const { seen, openNote, pointedNote, place } = useSession();
  const below = useNotesBelow();
  const findings = [...(seen?.findings ?? []), ...(seen?.settled ?? [])];
  const named = (name: string | null) => findings.find(({ key }) => key === name) ?? null;
  const pointed = named(pointedNote);
  const shown = pointed ?? named(openNote);
  const first = shown?.places?.[0];

  return (
    <Frame
      wall={<PictureWall work={work} picture={picture} findings={findings} shown={shown} />}
      margin={<Notes work={work} picture={picture} seen={seen} />}
      over={
        <>
          {shown && first && <Leader note={shown.key} spot={spotOf(first, below)} size={picture.facts} />}
          {place && openNote === PLACE_NOTE && !pointed && (
            <Leader note={PLACE_NOTE} spot={place} size={picture.facts} />
          )}
        </>
      }
    />
  );
}
