import { countWord, type PaletteEntry, percent, type Recipe } from '@halflight/engine';
import { NoteFrame } from '../../parts/NoteFrame.tsx';
import { Patch } from '../../parts/Swatches.tsx';
import type { OpenedPicture } from '../../picture/desk.ts';
import type { PaletteFormat } from '../../picture/handover-desk.ts';
import { pictures } from '../../state/desks.ts';
import { say } from '../../state/session.ts';
import { save, type Thing } from '../../state/write.ts';
import { usePalette } from './usePalette.ts';

/** The colours that carry the picture, to copy one by one or to save. */
export function PalettePart({
  picture,
  recipe,
  title,
}: {
  picture: OpenedPicture;
  recipe: Recipe;
  title: string;
}) {
  const palette = usePalette(picture, recipe);
  const sentence = palette
    ? `${palette.length === 1 ? 'One colour carries' : `${upper(countWord(palette.length))} colours carry`} it.`
    : 'Its colours are being counted.';
  const stem = picture.facts.name.replace(/\.[A-Za-z0-9]{1,5}$/, '');
  const thing = (kind: PaletteFormat): Thing => {
    const name = `${stem}.palette.${kind}`;
    const make = async () => ({
      name,
      blob: await pictures.desk.paletteFile(recipe, title, kind),
      readBack: true,
    });
    return { name, make };
  };
  const things: readonly (readonly [string, Thing])[] = [
    ['as a sheet (SVG)', thing('svg')],
    ['as design tokens (JSON)', thing('json')],
    ['as CSS', thing('css')],
  ];
  return (
    <NoteFrame name="handover palette" sentence={sentence}>
      {palette && (
        <>
          <ul className="handover-palette">
            {palette.map((entry) => (
              <Entry key={entry.name} entry={entry} />
            ))}
          </ul>
          <p className="answers">
            {things.map(([words, thing]) => (
              <button key={words} type="button" className="answer" onClick={() => void save(thing)}>
                {words}
              </button>
            ))}
          </p>
        </>
      )}
    </NoteFrame>
  );
}

function Entry({ entry: { name, hex, rgb, share } }: { entry: PaletteEntry }) {
  const copy = (): void => {
    void navigator.clipboard?.writeText(hex).then(() => say(`${hex} is on the clipboard.`));
  };
  return (
    <li>
      <Patch rgb={rgb} />
      <span>{name}</span>
      <button type="button" className="clause" onClick={copy}>
        <span className="unseen">Copy {name}: </span>
        {hex}
      </button>
      <span className="quiet">{percent(share)}</span>
    </li>
  );
}

const upper = (word: string): string => word.charAt(0).toUpperCase() + word.slice(1);
