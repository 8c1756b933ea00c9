import type { Drawing } from '../../drawings/drawing.ts';
import type { Finding } from '../../findings/finding.ts';
import { DETAIL } from '../../findings/thresholds/detail.ts';
import { type Plane, planeOf, stretch } from '../../numbers/plane.ts';
import type { Field } from '../../views/view.ts';
import type { Evidence, Reading, ReadingInput, ReadingKind } from '../reading.ts';
import { type DetailValue, measureDetail } from './measure.ts';

/** Reading 5: does detail stand where it serves the picture? */
export const detail: ReadingKind<DetailValue> = {
  id: 'detail',
  title: 'Detail',
  about: 'Where the fine strokes lie, and whether they serve the place that matters.',
  sources: [
    'Burt & Adelson 1983, The Laplacian pyramid as a compact image code',
    'Hou & Zhang 2007, Saliency detection: a spectral residual approach',
    'Judd, Ehinger, Durand, Torralba 2009, Learning to predict where humans look',
  ],
  measures: [
    {
      key: 'outsideFocusShare',
      label: 'fine detail outside the focus',
      unit: '%',
      digits: 0,
      get: (v) => percent(v.outsideFocusShare),
    },
    {
      key: 'overworkedShare',
      label: 'busy places that add little',
      unit: '%',
      digits: 1,
      get: (v) => percent(v.overworkedShare),
    },
    {
      key: 'focusRatio',
      label: 'detail of the focus against the rest',
      unit: '×',
      digits: 2,
      get: (v) => v.focusRatio,
    },
    {
      key: 'fineAmplitude',
      label: 'strength of the fine strokes',
      unit: 'L*',
      digits: 1,
      get: (v) => v.fineAmplitude,
    },
    { key: 'evenness', label: 'evenness of detail', unit: '%', digits: 0, get: (v) => percent(v.evenness) },
  ],
  mapFiles: { overworked: 'detail-overworked' },
  needs: (intent) => intent.focus ?? null,
  read,
  findings,
  fine,
  draw,
};

const percent = (share: number | null): number | null => (share === null ? null : 100 * share);
const inWords = (share: number): string => `${Math.round(100 * share)} %`;

function read(input: ReadingInput): Reading<DetailValue> {
  const { close } = input.views;
  const measure = measureDetail(input.views, input.intent.focus, input.leftOut);
  const atClose = (plane: Plane) => (): Field => stretch(plane, close.width, close.height);
  return {
    value: measure.value,
    evidence: evidenceOf(measure.value, input),
    maps: {
      overworked: atClose(measure.overworked),
      starved: atClose(measure.starved),
      focus: atClose(measure.focus),
      fine: () => strokes(measure.drawing()),
    },
  };
}

/** The fine octaves as a picture: middle grey where nothing is drawn. */
function strokes({ width, height, data }: Plane): Field {
  return planeOf(width, height, (p) => Math.min(1, Math.max(0, 0.5 + data[p] / 30)));
}

function evidenceOf(value: DetailValue, input: ReadingInput): Evidence {
  const long = Math.max(input.picture.width, input.picture.height);
  if (long < 450)
    return { level: 'weak', reason: 'The picture is too small to tell fine strokes from its pixels.' };
  if (value.fineAmplitude < 0.3) return { level: 'weak', reason: 'The picture has hardly any fine strokes.' };
  if (!value.focusDrawn)
    return {
      level: 'fair',
      reason: 'The focus is not decided; it is taken from where the eye is likely to go first.',
    };
  return { level: 'strong', reason: 'Measured against the focus you drew.' };
}

function findings({ value }: Reading<DetailValue>, input: ReadingInput): Finding[] {
  const out: Finding[] = [];
  const usual = input.baseline?.measures['detail.overworkedShare'];
  const limit = Math.max(DETAIL.overworked.at, usual ? usual.p90 / 100 : 0);
  const place = value.focusDrawn ? 'outside the focus' : 'away from where the eye goes';
  if (value.overworkedShare > limit)
    out.push({
      key: 'detail.overworked',
      reading: 'detail',
      severity: Math.min(0.8, 0.25 + 1.2 * (value.overworkedShare - limit)),
      text: `Fine strokes ${place} cost attention and add nothing to the whole.`,
      number: `${inWords(value.overworkedShare)} of the picture is busy and hardly shows from a distance; up to ${inWords(limit)} is common.`,
      todo: 'Lay these places down in fewer, larger strokes, or calm their contrast; keep small strokes for the focus.',
      origin:
        usual && usual.p90 / 100 >= limit
          ? { kind: 'baseline', text: 'unusual for you' }
          : DETAIL.overworked.origin,
      map: 'overworked',
    });
  if (!value.focusDrawn || value.focusRatio === null) return out;
  if (value.focusRatio < DETAIL.focusRatio.at)
    out.push({
      key: 'detail.focusCoarse',
      reading: 'detail',
      severity: Math.min(0.7, 0.2 + 0.8 * (DETAIL.focusRatio.at - value.focusRatio)),
      text: 'The place that matters is painted more coarsely than the rest.',
      number: `Its fine strokes have ${value.focusRatio.toFixed(2)} times the strength of those elsewhere.`,
      todo: 'Sharpen an edge or two in the focus, or take detail out around it.',
      origin: DETAIL.focusRatio.origin,
      map: 'focus',
    });
  return out;
}

function fine({ value }: Reading<DetailValue>): string {
  if (value.focusRatio !== null && value.focusRatio > 1.3)
    return value.focusDrawn
      ? 'The finest strokes stand in the focus.'
      : 'The finest strokes stand where the eye is likely to go first.';
  return 'Detail is spread without getting in the way.';
}

function draw({ value }: Reading<DetailValue>, input: ReadingInput): Drawing {
  const { width, height } = input.views.close;
  const w = 160;
  const h = (w * height) / width;
  const share =
    value.outsideFocusShare === null
      ? ''
      : ` ${inWords(value.outsideFocusShare)} of it lies outside the focus.`;
  return {
    width: w,
    height: h,
    shapes: [{ kind: 'map', x: 0, y: 0, width: w, height: h, map: 'fine' }],
    sentence: `The picture as drawn by its fine detail alone.${share}`,
  };
}
