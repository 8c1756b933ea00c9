import type { Recipe } from '@halflight/engine';
import { proxy } from 'comlink';
import { useState } from 'react';
import type { Work } from '../../document/work.ts';
import { Chosen } from '../../parts/Chosen.tsx';
import { NoteFrame } from '../../parts/NoteFrame.tsx';
import { Value } from '../../parts/Value.tsx';
import { Ways } from '../../parts/Ways.tsx';
import type { RecordWish } from '../../picture/handover-desk.ts';
import { keeper, pictures } from '../../state/desks.ts';
import { settle, useHandover } from '../../state/handover.ts';
import { works } from '../../state/rework.ts';
import { type Thing, tell, useWrite } from '../../state/write.ts';

const FORMATS: readonly (readonly [RecordWish['format'], string])[] = [
  ['webp', 'an animation (WebP)'],
  ['png', 'a strip (PNG)'],
  ['svg', 'a strip to draw on (SVG)'],
];
const SIDES = [480, 960, 1440];

/** How the picture came to be: the edit step by step, the versions one after the other. */
export function RecordPart({ work, recipe }: { work: Work; recipe: Recipe }) {
  const edited = works(recipe);
  const several = work.versions.length > 1;
  const [wanted, setWanted] = useState<'edit' | 'versions'>('edit');
  const [format, setFormat] = useState<RecordWish['format']>('webp');
  const { side, seconds } = useHandover((state) => state.settings.process);
  const running = useWrite((state) => state.running !== null);
  if (!edited && !several) return null;
  const what = !edited ? 'versions' : several ? wanted : 'edit';
  // The strip of versions is hung by what they changed: it is on the screen of progress.
  const given = what === 'versions' ? 'webp' : format;
  const moves = given === 'webp';
  const name = `${work.title.replace(/[\\/:*?"<>|]+/g, ' ')} ${what === 'edit' ? 'edit' : 'versions'}.${given}`;
  const thing: Thing = {
    name,
    async make() {
      tell({ doing: 'Making the pictures', share: null });
      const versions = what === 'versions' ? await originals(work) : null;
      const wish: RecordWish = { name, title: work.title, format: given, side, seconds, versions };
      return pictures.desk.record(recipe, wish, proxy(tell));
    },
  };
  return (
    <NoteFrame name="handover record" sentence="How it came to be, picture by picture.">
      <p>
        {edited && several ? (
          <Chosen
            label="What is recorded"
            value={what}
            options={[
              ['edit', 'The edit, step by step'],
              ['versions', 'The versions'],
            ]}
            onChoose={(value) => setWanted(value as typeof wanted)}
          />
        ) : edited ? (
          'The edit, step by step'
        ) : (
          'The versions'
        )}
        , as{' '}
        {what === 'edit' ? (
          <Chosen
            label="Format of the record"
            value={given}
            options={FORMATS}
            onChoose={(value) => setFormat(value as typeof format)}
          />
        ) : (
          'an animation (WebP)'
        )}
        {moves && (
          <>
            {' '}
            of at most{' '}
            <Chosen
              label="Size of the animation"
              value={String(side)}
              options={[...new Set([...SIDES, side])]
                .sort((a, b) => a - b)
                .map((it): [string, string] => [String(it), `${it} pixels`])}
              onChoose={(value) => settle({ process: { side: Number(value), seconds } })}
            />
            ; each picture stands for{' '}
            <Value
              label="How long each picture stands"
              value={seconds}
              min={0.4}
              max={10}
              step={0.1}
              digits={1}
              unit={' s'}
              onChange={(value) => settle({ process: { side, seconds: value } })}
            />
          </>
        )}
        .
      </p>
      <p className="caption quiet">
        {moves
          ? 'It plays only where it is put. For those who asked for less motion, put a strip in its place.'
          : 'The picture as painted, then after each step.'}
      </p>
      {!running && (
        <p className="answers">
          <Ways thing={thing} of={JSON.stringify([work.id, recipe, what, given, side, seconds])} what="it" />
        </p>
      )}
    </NoteFrame>
  );
}

/** The files of all versions. */
async function originals({ versions }: Work): Promise<{ name: string; file: Blob }[]> {
  return Promise.all(
    versions.map(async ({ number, name, hash, mediaType }) => {
      const file = await keeper.picture(hash, mediaType);
      if (file === null)
        throw new Error(`The file of version ${number} is not in the store, so that it can’t be shown.`);
      return { name, file };
    }),
  );
}
