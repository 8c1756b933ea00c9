import { type LightIntent, lightFromTaps, SITUATIONS, type Situation } from '@halflight/engine';
import { NoteFrame } from '../../parts/NoteFrame.tsx';
import { number } from '../../parts/ReadingDetails.tsx';
import { Patch } from '../../parts/Swatches.tsx';
import { beginTask } from '../../parts/stage/task.ts';
import type { Seen } from '../../picture/desk.ts';
import { decide } from '../../state/decide.ts';
import { pictures } from '../../state/desks.ts';
import { say, trouble } from '../../state/session.ts';

/** The light of the scene: one of the natural situations, two taps on one surface, or as the picture shows it. */
export function LightPart({
  light,
  seen,
  taps = true,
  onSheet,
}: {
  light: LightIntent | undefined;
  seen: Seen | null;
  /** False where no picture hangs that could be tapped. */
  taps?: boolean;
  /** Opens the light sheet; `turn`: what is chosen there also goes into the edit. */
  onSheet?: (turn: boolean) => void;
}) {
  const chosen = light?.kind === 'situation' ? light.name : null;
  const about = SITUATIONS.find(({ name }) => name === chosen)?.about;
  return (
    <NoteFrame name="intent light" sentence={sentenceOf(light)}>
      {light?.kind === 'surface' && (
        <ul className="light-pair">
          <li>
            <Patch rgb={light.lit} /> lit
          </li>
          <li>
            <Patch rgb={light.shade} /> in shade
          </li>
        </ul>
      )}
      {light && <Carried seen={seen} />}
      <p>
        {taps && (
          <>
            <button type="button" className="clause" onClick={askTaps}>
              Tap one surface, lit and in shade
            </button>
            , or{' '}
          </>
        )}
        <button
          type="button"
          className="clause"
          aria-pressed={light?.kind === 'asRead'}
          onClick={() => decide('light', { kind: 'asRead' })}
        >
          {taps ? 'take it as the picture shows it' : 'Take it as each picture shows it'}
        </button>
        , or choose what it is:
      </p>
      <fieldset className="situations">
        <legend className="unseen">Situations of light</legend>
        {SITUATIONS.map((situation) => (
          <SituationRow
            key={situation.name}
            situation={situation}
            chosen={situation.name === chosen}
            onChoose={() => decide('light', { kind: 'situation', name: situation.name })}
          />
        ))}
      </fieldset>
      <p className="caption quiet word-sentence">
        {about ?? 'Beside each: the colour of what is lit, and of what is left in the shade.'}
      </p>
      {onSheet && (
        // From a light that is only read the lit places come out wrong: the sheet waits until it is declared.
        <p>
          {light && light.kind !== 'asRead' ? (
            <>
              See the whole painting in other lights, to{' '}
              <button type="button" className="clause" data-light-sheet onClick={() => onSheet(false)}>
                decide one
              </button>{' '}
              or to{' '}
              <button type="button" className="clause" onClick={() => onSheet(true)}>
                turn the picture into one
              </button>
              .
            </>
          ) : (
            <span className="quiet">
              Once the present light is chosen or tapped, the whole painting can be seen in other lights.
            </span>
          )}
        </p>
      )}
      {light && (
        <p>
          <button type="button" className="clause" onClick={() => decide('light', undefined)}>
            Leave the light open
          </button>
        </p>
      )}
    </NoteFrame>
  );
}

/** Luminance at which the colours of a situation are shown: they differ in hue, not in how bright they are. */
const SHOWN = 0.42;

function SituationRow({
  situation: { name, title, key, fill, mired },
  chosen,
  onChoose,
}: {
  situation: Situation;
  chosen: boolean;
  onChoose: () => void;
}) {
  const shown = (light: Situation['key']) => light.map((v) => v * SHOWN) as [number, number, number];
  return (
    <label className="situation">
      <input type="radio" name="situation" value={name} checked={chosen} onChange={onChoose} />
      <span className="situation-colours">
        <Patch rgb={shown(key)} />
        <Patch rgb={shown(fill)} />
      </span>
      <span>{title}</span>
      <span className="caption quiet">{miredWords(mired)}</span>
    </label>
  );
}

/** "310 mired warmer": the lit side against the shade. */
function miredWords(mired: number | null): string {
  if (mired === null) return 'coloured';
  const size = number(Math.abs(mired), 0);
  return `lit side ${size} mired ${mired > 0 ? 'warmer' : 'cooler'}`;
}

/** How strongly the picture carries what was decided. */
function Carried({ seen }: { seen: Seen | null }) {
  const value = seen?.readings.find(({ id }) => id === 'light')?.value as
    | { carriedPercent?: number | null }
    | undefined;
  const percent = value?.carriedPercent;
  if (percent === null || percent === undefined) return null;
  return <p>The picture carries it in {number(percent, 0)} % of the shade that can be judged.</p>;
}

/** Radius around a place that its colour is read from, in pixels of the picture. */
const SPOT = 6;

function askTaps(): void {
  askColour('Tap a surface where it is lit.', (lit) =>
    askColour('Tap the same surface where it is in shade.', (shade) => {
      const tapped = lightFromTaps(lit, shade);
      if ('trouble' in tapped) trouble('reading', tapped.trouble);
      else decide('light', tapped.light);
    }),
  );
}

function askColour(words: string, put: (rgb: [number, number, number]) => void): void {
  say(words);
  beginTask({
    kind: 'spot',
    words,
    done: ([x, y]) =>
      void pictures.desk.place(x, y, SPOT).then(({ painted, rgb }) => {
        if (painted) put([...rgb]);
        else trouble('reading', 'Nothing is painted at that place. Begin again on the painting.');
      }),
  });
}

function sentenceOf(light: LightIntent | undefined): string {
  if (!light) return 'The light is left open.';
  if (light.kind === 'asRead') return 'The light is as the picture shows it.';
  if (light.kind === 'surface') return 'The light is taken from one surface, lit and in shade.';
  const title = SITUATIONS.find(({ name }) => name === light.name)?.title ?? light.name;
  return `The light is decided: ${title[0].toLowerCase()}${title.slice(1)}.`;
}
