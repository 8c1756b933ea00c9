import type { StepData, StepId } from '@halflight/engine';
import { beginTask } from '../../parts/stage/task.ts';
import { pictures } from '../../state/desks.ts';
import { say, trouble } from '../../state/session.ts';
import { gainsFrom } from './needs.ts';

type Colour = readonly [number, number, number];

/** Radius around a place that its colour is read from, in pixels of the picture. */
const SPOT = 6;

/** Asks for what a kind of step needs: by a tap on the picture, or by an example picture. */
export function askFor(kind: StepId, put: (data: StepData) => void): void {
  if (kind === 'match') askExample(put);
  else if (kind === 'relight') askLight(put);
  else if (kind === 'veil') askColour(COLOUR_OF_AIR, (colour) => put({ colour }));
  else askHue(kind, put);
}

const COLOUR_OF_AIR = 'Tap the picture where it has the colour of the fog or glow.';

function askHue(kind: StepId, put: (data: StepData) => void): void {
  const words =
    kind === 'accent'
      ? 'Tap the picture where it has the hue of the accent.'
      : 'Tap the picture where it has the hue to gather to.';
  askSpot(words, ({ hue }) => {
    if (hue === null)
      trouble(
        'reading',
        'That place is a neutral grey and has no hue. Choose the step again and tap a coloured place.',
      );
    else put({ families: [{ hue: Math.round(hue), width: kind === 'accent' ? 40 : 60 }] });
  });
}

/** One place of the picture, read. */
function askSpot(words: string, put: (place: { rgb: Colour; hue: number | null }) => void): void {
  say(words);
  beginTask({
    kind: 'spot',
    words,
    done: ([x, y]) =>
      void pictures.desk
        .place(x, y, SPOT)
        .then((place) =>
          place.painted
            ? put(place)
            : trouble(
                'reading',
                'Nothing is painted at that place. Choose the step again and tap the painting.',
              ),
        ),
  });
}

export function askColour(words: string, put: (colour: Colour) => void): void {
  askSpot(words, ({ rgb }) => put(rgb));
}

function askLight(put: (data: StepData) => void): void {
  askColour('Tap the shade whose colour is wrong.', (now) =>
    askColour('Tap a shade of the same surface whose colour is right.', (should) =>
      put({ gains: gainsFrom(now, should) }),
    ),
  );
}

/** An example picture by the browser's chooser; only its numbers are kept. */
function askExample(put: (data: StepData) => void): void {
  const input = document.createElement('input');
  input.type = 'file';
  input.accept = 'image/*,.tif,.tiff';
  input.addEventListener('change', () => {
    const file = input.files?.[0];
    if (!file) return;
    say('Reading the example.');
    pictures.desk
      .example(file, file.name)
      .then(put)
      .catch((error: Error) => trouble('reading', error.message));
  });
  input.click();
}
