import { DELIVERY_SPACES } from '../../colour/rgbSpaces.ts';
import type { ColourSpace } from '../../colour/space.ts';
import { HEADROOM_AREA } from '../../findings/thresholds/headroom.ts';
import type { Intent } from '../../intent/intent.ts';
import { censusFor } from '../censusFor.ts';
import type { Evidence, Reading, ReadingInput, ReadingKind } from '../reading.ts';
import { directions } from './directions.ts';
import { drawHeadroom } from './draw.ts';
import { endsMap, sharesAtEnds } from './ends.ts';
import { headroomFindings, headroomFine } from './findings.ts';
import { smoothness } from './smoothness.ts';
import type { HeadroomValue } from './types.ts';

/** Reading 2: what an edit can still do before colours break. */
export const headroom: ReadingKind<HeadroomValue> = {
  id: 'headroom',
  title: 'Headroom',
  about: 'How far colours can still be edited before they break at black, white or the edge of the gamut.',
  sources: [
    'CSS Color Module Level 4: the gamuts of the delivery spaces',
    'CIE 15: CIELAB L*, daylight locus',
    'Ottosson 2020: OKLab',
  ],
  measures: [
    { key: 'endsShare', label: 'at the ends', unit: '%', digits: 1, get: (v) => 100 * v.endsShare },
    { key: 'darksShare', label: 'closed darks', unit: '%', digits: 1, get: (v) => 100 * v.darksShare },
    { key: 'lightsShare', label: 'closed lights', unit: '%', digits: 1, get: (v) => 100 * v.lightsShare },
    {
      key: 'coloursShare',
      label: 'colours at the edge',
      unit: '%',
      digits: 1,
      get: (v) => 100 * v.coloursShare,
    },
    { key: 'exposureUp', label: 'room to expose up', unit: 'stops', digits: 2, get: (v) => v.exposureUp },
    {
      key: 'exposureDown',
      label: 'room to expose down',
      unit: 'stops',
      digits: 2,
      get: (v) => v.exposureDown,
    },
    { key: 'contrast', label: 'room for contrast', unit: '', digits: 2, get: (v) => v.contrast },
    { key: 'chromaGain', label: 'room for chroma', unit: '×', digits: 2, get: (v) => v.chromaGain },
    { key: 'hueTurnLeft', label: 'room to turn hues left', unit: '°', digits: 0, get: (v) => v.hueTurnLeft },
    {
      key: 'hueTurnRight',
      label: 'room to turn hues right',
      unit: '°',
      digits: 0,
      get: (v) => v.hueTurnRight,
    },
    { key: 'warmer', label: 'room to warm', unit: 'mired', digits: 0, get: (v) => v.warmer },
    { key: 'cooler', label: 'room to cool', unit: 'mired', digits: 0, get: (v) => v.cooler },
    {
      key: 'smoothShare',
      label: 'very even gradients',
      unit: '%',
      digits: 0,
      get: (v) => 100 * v.smoothShare,
    },
  ],
  mapFiles: {},
  needs: (intent) => intent.delivery?.space ?? null,
  read,
  findings: headroomFindings,
  fine: headroomFine,
  draw: drawHeadroom,
};

/** The space the picture is to be delivered in; sRGB while that is open. */
export function deliverySpace(intent: Intent): ColourSpace {
  return DELIVERY_SPACES[intent.delivery?.space ?? 'srgb'];
}

function read(input: ReadingInput): Reading<HeadroomValue> {
  const space = deliverySpace(input.intent);
  const census = censusFor(input);
  const { close } = input.views;
  const at = sharesAtEnds(census, space);
  const smooth = smoothness(input.views.middle, input.picture.depth);
  return {
    value: {
      ...directions(census, space),
      endsShare: at.ends,
      darksShare: at.darks,
      lightsShare: at.lights,
      coloursShare: at.colours,
      smoothShare: smooth.share,
      smoothStretch: smooth.stretch,
    },
    evidence: evidenceOf(input.census.area),
    maps: { ends: () => endsMap(close, space) },
  };
}

/** The reading without its directions and gradients, which no finding begins with: what stands at the ends, quickly. */
export function readEnds(input: ReadingInput): Reading<HeadroomValue> {
  const at = sharesAtEnds(censusFor(input), deliverySpace(input.intent));
  return {
    value: {
      exposureUp: null,
      exposureDown: null,
      contrast: null,
      chromaGain: null,
      hueTurnLeft: 180,
      hueTurnRight: 180,
      warmer: null,
      cooler: null,
      endsShare: at.ends,
      darksShare: at.darks,
      lightsShare: at.lights,
      coloursShare: at.colours,
      smoothShare: 0,
      smoothStretch: null,
    },
    evidence: evidenceOf(input.census.area),
    maps: {},
  };
}

function evidenceOf(area: number): Evidence {
  if (area === 0) return { level: 'weak', reason: 'The picture is transparent throughout.' };
  if (area < HEADROOM_AREA.weak)
    return { level: 'weak', reason: 'The picture is too small to count shares of it.' };
  if (area < HEADROOM_AREA.fair) return { level: 'fair', reason: 'The picture is small.' };
  return { level: 'strong', reason: 'Every pixel was counted.' };
}
