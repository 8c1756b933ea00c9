import { NoteFrame } from '../../parts/NoteFrame.tsx';
import { number } from '../../parts/ReadingDetails.tsx';
import { Patch } from '../../parts/Swatches.tsx';
import type { PlaceReading } from '../../picture/desk.ts';
import { PLACE_NOTE } from '../../state/readings.ts';
import { say, set } from '../../state/session.ts';
import { LightOfPlace } from './LightOfPlace.tsx';

/** The place that was tapped. */
export function PlaceNote({ place }: { place: PlaceReading }) {
  if (!place.painted) {
    return (
      <NoteFrame name={PLACE_NOTE} sentence="Nothing is painted at this place.">
        <Forget />
      </NoteFrame>
    );
  }
  const { words, rgb, hex, space, lightness, chroma, hue } = place;
  return (
    <NoteFrame name={PLACE_NOTE} sentence={words}>
      <div className="place-read">
        <Patch rgb={rgb} />
        <dl>
          <dt>lightness</dt>
          <dd>{number(lightness, 0)} of 100</dd>
          <dt>chroma</dt>
          <dd>{number(chroma, 3)}</dd>
          <dt>hue</dt>
          <dd>{hue === null ? 'none' : `${number(hue, 0)}°`}</dd>
          <dt>in {space}</dt>
          <dd>
            <button
              type="button"
              className="clause"
              onClick={() =>
                void navigator.clipboard?.writeText(hex).then(() => say(`${hex} is on the clipboard.`))
              }
            >
              <span className="unseen">Copy </span>
              {hex}
            </button>
          </dd>
        </dl>
      </div>
      <LightOfPlace place={place} />
      <Forget />
    </NoteFrame>
  );
}

function Forget() {
  return (
    <button type="button" className="clause" onClick={() => set({ place: null, openNote: null })}>
      Take the mark off
    </button>
  );
}
