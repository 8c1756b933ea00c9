import type { Finding, Place } from '../../findings/finding.ts';
import { LIGHT } from '../../findings/thresholds/light.ts';
import { severityOf } from '../../findings/thresholds/threshold.ts';
import { countWord, percent, sentence } from '../../findings/wording.ts';
import type { Reading } from '../reading.ts';
import type { LightValue, PlaceValue } from './value.ts';
import { shiftInWords } from './words.ts';

/** Places that one finding names; the map shows all of them. */
const MOST_PLACES = 12;

/** Findings of the light: shade without the light's colour, places lit against it, a light that is not carried. */
export function lightFindings({ value }: Reading<LightValue>): Finding[] {
  return [neutral(value), opposite(value), none(value), turned(value), faint(value)].filter(
    (f) => f !== null,
  );
}

function neutral(value: LightValue): Finding | null {
  const severity = severityOf(value.neutralShare, LIGHT.neutral);
  const places = placesOf(value, 'neutral');
  if (severity === 0 || places.length === 0) return null;
  return {
    key: 'light.neutral',
    reading: 'light',
    severity,
    text: value.declared
      ? 'Some shade ignores the light you decided: it only gets darker.'
      : 'Some shade ignores the light of the scene: it only gets darker.',
    number: `${percent(value.neutralShare)} of the picture, in ${placeCount(places)}; ${elsewhere(value)}`,
    todo: 'Lay the third colour of each place over it, or relight it in the edit; the values can stay.',
    origin: LIGHT.neutral.origin,
    map: 'neutral',
    places,
  };
}

function opposite(value: LightValue): Finding | null {
  const severity = severityOf(value.oppositeShare, LIGHT.opposite);
  const places = placesOf(value, 'opposite');
  if (severity === 0 || places.length === 0) return null;
  return {
    key: 'light.opposite',
    reading: 'light',
    severity,
    text: value.declared
      ? 'Some places contradict the light you decided: their light and shade turn the other way.'
      : 'Some places are lit against the scene: their light and shade turn the other way.',
    number: `${percent(value.oppositeShare)} of the picture, in ${placeCount(places)}; ${elsewhere(value)}`,
    todo: 'If no second light stands there, turn the shade to the third colour of each place and its lit side the other way.',
    origin: LIGHT.opposite.origin,
    map: 'opposite',
    places,
  };
}

function none(value: LightValue): Finding | null {
  if (value.statement !== 'none') return null;
  return {
    key: 'light.none',
    reading: 'light',
    severity: 0.35,
    text: 'Shade only darkens everywhere: the light of this picture has no colour.',
    number: 'Surface after surface goes from light into shade without a change of hue.',
    todo: 'Decide what the light is, warm against cool or the other way round; then every shade can be held against it.',
    origin: { kind: 'default', text: 'our default; common in overcast light and in studies of value' },
  };
}

function turned(value: LightValue): Finding | null {
  if (!value.declared || value.turnedBy === null) return null;
  const severity = severityOf(value.turnedBy, LIGHT.turned);
  if (severity === 0) return null;
  return {
    key: 'light.turned',
    reading: 'light',
    severity,
    text: 'The picture shows another light than the one you decided.',
    number: `Its shades turn ${Math.round(value.turnedBy)}° away from the light you decided`,
    todo: 'Decide the light that is painted, or turn the light of the whole picture in the edit.',
    origin: LIGHT.turned.origin,
  };
}

function faint(value: LightValue): Finding | null {
  if (!value.declared || value.carriedPercent === null) return null;
  const severity = severityOf(value.carriedPercent, LIGHT.carried);
  if (severity === 0) return null;
  return {
    key: 'light.faint',
    reading: 'light',
    severity,
    text: 'The picture carries the light you decided only in parts.',
    number: `${Math.round(value.carriedPercent)} % of the shade that can be judged follows it (below ${LIGHT.carried.from} %)`,
    todo: 'Begin with the largest shades: give them the colour that this light leaves in them.',
    origin: LIGHT.carried.origin,
    map: 'neutral',
  };
}

/** One sentence when nothing is wrong. */
export function lightFine({ value }: Reading<LightValue>): string {
  if (!value.shift) return 'Nothing speaks against its light.';
  const how = shiftInWords({ ...value, shift: value.shift });
  return value.declared
    ? `Light and shade follow what you decided: lit sides are ${how}.`
    : `One light throughout: lit sides are ${how}.`;
}

function elsewhere(value: LightValue): string {
  if (!value.shift) return '';
  return `elsewhere lit sides are ${shiftInWords({ ...value, shift: value.shift })}`;
}

function placesOf(value: LightValue, kind: PlaceValue['kind']): Place[] {
  return value.places
    .filter((place) => place.kind === kind)
    .slice(0, MOST_PLACES)
    .map(({ x, y, width, height, share, outline, lit, now, should, evidence }) => ({
      x,
      y,
      width,
      height,
      share,
      outline,
      note: sentence(`${percent(share)} of the picture${evidence === 'strong' ? '' : ', fairly sure'}.`),
      swatches: [
        { label: 'lit', rgb: lit },
        { label: 'now', rgb: now },
        { label: 'in this light', rgb: should },
      ],
    }));
}

function placeCount(places: readonly Place[]): string {
  return places.length === 1 ? 'one place' : `${countWord(places.length)} places`;
}
