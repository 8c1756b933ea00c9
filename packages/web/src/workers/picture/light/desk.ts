import {
  type Drawing,
  type Examination,
  type Intent,
  type LightPlace,
  type LightResult,
  type LightValue,
  lightOf,
  type Raster,
  READINGS,
  type ReadingInput,
} from '@halflight/engine';
import type { Answer } from '../../../document/work.ts';
import type { LightDesk } from '../../../picture/light-desk.ts';

interface Read {
  readonly input: ReadingInput;
  readonly examination: Examination;
}

/** What the light's part may ask of the rest of the worker. */
interface Surroundings {
  open(): { readonly raster: Raster };
  /** The readings of the open picture. */
  examine(intent: Intent, answers: readonly Answer[]): Read;
}

/** The light's part of the picture worker. */
export function openLightDesk(house: Surroundings): LightDesk {
  // The reading keeps what is small; the whole result is made again for the first tap, and kept.
  let whole: { of: object; result: LightResult } | null = null;
  const resultOf = (read: Read): LightResult => {
    const of = lightReading(read)?.reading ?? read;
    if (whole?.of !== of) whole = { of, result: lightOf(read.input) };
    return whole.result;
  };
  return {
    async space() {
      return house.open().raster.space;
    },

    async explain(x, y, intent, answers) {
      const read = house.examine(intent, answers);
      const { explain } = await import('./explain.ts');
      const { sentence, pairs, place } = explain(resultOf(read), x, y);
      return { sentence, pairs, place, drawing: place && draw(read, place.x, place.y) };
    },

    async placeDrawing(x, y, intent, answers) {
      return draw(house.examine(intent, answers), x, y);
    },
  };
}

const lightReading = ({ examination }: Read) => examination.readings.find(({ id }) => id === 'light');

/** The reading's own drawing, made for one of its places alone. */
function draw(read: Read, x: number, y: number): Drawing | null {
  const reading = lightReading(read)?.reading;
  const kind = READINGS.find(({ id }) => id === 'light');
  if (!reading || !kind) return null;
  const value = reading.value as LightValue;
  const places = value.places.filter((place: Pick<LightPlace, 'x' | 'y'>) => place.x === x && place.y === y);
  if (places.length === 0) return null;
  return kind.draw({ ...reading, value: { ...value, places } }, read.input);
}
