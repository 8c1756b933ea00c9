import { DELIVERY_SPACES, repaintPlaces } from '@halflight/engine';
import { go } from '../../app/route.ts';
import { recipeOf } from '../../document/recipe.ts';
import type { Work } from '../../document/work.ts';
import { Bits } from '../../parts/Bits.tsx';
import { Chosen } from '../../parts/Chosen.tsx';
import { Troubles } from '../../parts/Troubles.tsx';
import { Waiting } from '../../parts/Waiting.tsx';
import { Ways } from '../../parts/Ways.tsx';
import type { OpenedPicture } from '../../picture/desk.ts';
import type { TargetSpace, Writing } from '../../picture/edit-desk.ts';
import { takePreset } from '../../state/handover.ts';
import { setRework, targetSpace, useRework } from '../../state/rework.ts';
import { useSession } from '../../state/session.ts';
import { editedPicture, guideLayer, recipeFile, save, stopWriting, useWrite } from '../../state/write.ts';
import { takeRecipeFile } from './takeRecipe.ts';

const FORMATS: Record<Writing['format'], { words: string; ending: string }> = {
  png: { words: 'PNG', ending: 'png' },
  tiff: { words: 'TIFF', ending: 'tif' },
  jpeg: { words: 'JPEG', ending: 'jpg' },
  webp: { words: 'WebP', ending: 'webp' },
  avif: { words: 'AVIF', ending: 'avif' },
};
const DEEP: readonly Writing['format'][] = ['png', 'tiff'];

/** The edited picture at full size, as a sentence with its choices, and the guide layer. */
export function WritePart({ work, picture }: { work: Work; picture: OpenedPicture }) {
  const { chosen, running, done } = useWrite();
  const chosenSpace = useRework((state) => state.space);
  const space = targetSpace(work, chosenSpace);
  const recipe = recipeOf(work);
  const { facts } = picture;
  const name = facts.name.replace(/\.[A-Za-z0-9]{1,5}$/, '');
  const format = chosen.format ?? 'png';
  const deep = DEEP.includes(format);
  const depth = deep ? (chosen.depth ?? facts.depth) : 8;
  const metadata = chosen.metadata ?? true;
  const writing: Writing = { format, depth, space, metadata };
  const edited = editedPicture(recipe, writing, `${name} edited.${FORMATS[format].ending}`);
  const choose = (change: Partial<typeof chosen>): void =>
    useWrite.setState({ chosen: { ...chosen, ...change } });
  return (
    <section className="write" aria-label="Write the picture">
      <Troubles at={['writing']} />
      <p>
        At full size, as{' '}
        <Chosen
          label="Format of the file"
          value={format}
          options={Object.entries(FORMATS).map(([value, { words }]) => [value, words])}
          onChoose={(value) => choose({ format: value as Writing['format'] })}
        />{' '}
        with {deep ? <Bits depth={depth} onChoose={(next) => choose({ depth: next })} /> : '8 bits'} in{' '}
        <span className="held">
          <Chosen
            label="Colour space of the file"
            value={space}
            options={[
              ['own', `its own colours`],
              ...Object.entries(DELIVERY_SPACES).map(([value, { name: words }]): [string, string] => [
                value,
                words,
              ]),
            ]}
            onChoose={(value) => setRework({ space: value as TargetSpace })}
          />
          ,
        </span>{' '}
        camera data{' '}
        <Chosen
          label="Data beside the pixels"
          value={metadata ? 'kept' : 'dropped'}
          options={[
            ['kept', 'kept'],
            ['dropped', 'dropped'],
          ]}
          onChoose={(value) => choose({ metadata: value === 'kept' })}
        />
        .
      </p>
      {running ? (
        <Waiting what="Writing the picture" progress={running} onStop={stopWriting} />
      ) : (
        <p className="answers">
          <Ways thing={edited} of={JSON.stringify([recipe, writing])} />
        </p>
      )}
      {done && !running && <p className="quiet">{done}</p>}
      {!running && <GuideWords name={name} />}
      {!running && (
        <p className="quiet">
          The edit itself can be{' '}
          <button
            type="button"
            className="clause"
            onClick={() => void save(recipeFile(recipe, `${name} edit.json`))}
          >
            saved as a file
          </button>{' '}
          for other pictures and for the command line, or{' '}
          <button type="button" className="clause" onClick={takeRecipeFile}>
            taken from one
          </button>
          . With each step as a layer it is{' '}
          <button type="button" className="clause" onClick={() => toLayers(work.id)}>
            handed over in layers
          </button>
          .
        </p>
      )}
    </section>
  );
}

function toLayers(work: string): void {
  takePreset('layered');
  go({ screen: 'handover', work });
}

/** The guide layer, where there is something to guide to. */
function GuideWords({ name }: { name: string }) {
  const findings = useSession((session) => session.seen?.findings);
  const places = repaintPlaces(findings ?? []);
  if (places.length === 0) return null;
  const guide = guideLayer(places, `${name} guide.png`);
  return (
    <>
      <p>
        The guide layer is transparent and as large as the picture, with the outlines and target colours of{' '}
        {places.length === 1 ? 'the place' : `${places.length} places`} to repaint.
      </p>
      <p className="answers">
        <Ways thing={guide} of={JSON.stringify(places)} what="the guide layer" />
      </p>
    </>
  );
}
