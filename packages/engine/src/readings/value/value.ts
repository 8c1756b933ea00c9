import { VALUE_AREA } from '../../findings/thresholds/value.ts';
import type { Evidence, Reading, ReadingInput, ReadingKind } from '../reading.ts';
import { drawValues } from './draw.ts';
import { valueFindings, valueFine } from './findings.ts';
import { groupMap } from './maps.ts';
import { measureValues, tonalView } from './measure.ts';
import type { ValueValue } from './types.ts';

/** Reading 4: key, range and groups of value as one sees them from a step back. */
export const value: ReadingKind<ValueValue> = {
  id: 'value',
  title: 'Value',
  about: 'Key, range and groups of light and dark, as one sees them from a step back.',
  sources: [
    'CIE 15: CIELAB L*',
    'Wang & Song 2011, exact one-dimensional k-means',
    'Wang, Bovik, Sheikh & Simoncelli 2004, structural similarity',
  ],
  measures: [
    { key: 'key', label: 'key', unit: 'L*', digits: 0, get: (v) => v.key },
    { key: 'range', label: 'range', unit: 'L*', digits: 0, get: (v) => v.range },
    { key: 'groups', label: 'groups of value', unit: '', digits: 0, get: (v) => v.groups.length },
    { key: 'shapes', label: 'shapes in three tones', unit: '', digits: 0, get: (v) => v.shapes },
    {
      key: 'thumbnail',
      label: 'likeness of its three tones at thumbnail size',
      unit: '',
      digits: 2,
      get: (v) => v.thumbnail,
    },
    {
      key: 'focusDifference',
      label: 'focus against its surroundings',
      unit: 'L*',
      digits: 0,
      get: (v) => v.focus?.difference ?? null,
    },
  ],
  mapFiles: { groups: 'value-groups' },
  needs: (intent) => intent.focus,
  read,
  findings: valueFindings,
  fine: valueFine,
  draw: drawValues,
};

const NO_PAINT: ValueValue = {
  key: null,
  range: null,
  low: null,
  high: null,
  groups: [],
  tones: [],
  explained: [],
  thumbnail: null,
  shapes: null,
  focus: null,
  distribution: [],
};

function read({ census, views, intent, leftOut }: ReadingInput): Reading<ValueValue> {
  const view = tonalView(views.whole, leftOut);
  const measured = measureValues(view, intent.focus);
  if (!measured)
    return {
      value: NO_PAINT,
      evidence: { level: 'weak', reason: 'The picture is transparent throughout.' },
      maps: {},
    };
  const { grouping } = measured;
  return {
    value: measured.value,
    evidence: evidenceOf(census.area),
    maps: {
      groups: () => groupMap(view, grouping.chosen, views.close),
      tones: () => groupMap(view, grouping.three, views.close),
    },
  };
}

function evidenceOf(area: number): Evidence {
  if (area < VALUE_AREA.weak)
    return { level: 'weak', reason: 'The picture is too small to judge its values.' };
  if (area < VALUE_AREA.fair) return { level: 'fair', reason: 'The picture is small.' };
  return { level: 'strong', reason: 'Every place of the picture counts.' };
}
