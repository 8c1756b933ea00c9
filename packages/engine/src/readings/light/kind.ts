import type { Field } from '../../views/view.ts';
import type { Evidence, Reading, ReadingInput, ReadingKind } from '../reading.ts';
import { drawLight } from './draw.ts';
import { lightFindings, lightFine } from './findings.ts';
import { readLight } from './light.ts';
import type { LightResult } from './types.ts';
import { type LightValue, lightValue } from './value.ts';

/** Reading 3: does every light and every shade say what colour the light of this scene is? */
export const light: ReadingKind<LightValue> = {
  id: 'light',
  title: 'Light',
  about: 'How colours change from light into shade, and where shading ignores the light of the scene.',
  sources: [
    'Finlayson, Hordley, Lu, Drew 2006, On the removal of shadows from images',
    'Achanta, Shaji, Smith, Lucchi, Fua, Süsstrunk 2012, SLIC superpixels',
    'CIE 15, Colorimetry: daylight and Planckian radiators',
  ],
  measures: [
    { key: 'mired', label: 'lit side warmer than the shade', unit: 'mired', digits: 0, get: (v) => v.mired },
    {
      key: 'strength',
      label: 'turn of colour from shade to light',
      unit: '',
      digits: 2,
      get: (v) => v.strength,
    },
    {
      key: 'neutralShare',
      label: 'shade that only darkens',
      unit: '%',
      digits: 1,
      get: (v) => flaggedPercent(v, v.neutralShare),
    },
    {
      key: 'oppositeShare',
      label: 'places lit against the scene',
      unit: '%',
      digits: 1,
      get: (v) => flaggedPercent(v, v.oppositeShare),
    },
    {
      key: 'carriedPercent',
      label: 'judged shade that follows the light',
      unit: '%',
      digits: 0,
      get: (v) => v.carriedPercent,
    },
  ],
  mapFiles: { neutral: 'light-neutral', opposite: 'light-opposite' },
  needs: (intent) => intent.light ?? null,
  read,
  findings: lightFindings,
  fine: lightFine,
  draw: drawLight,
};

/** The share is known only where there is a light to hold shade against. */
const flaggedPercent = (v: LightValue, share: number): number | null => (v.q ? 100 * share : null);

/**
 * The whole result behind the reading of this input, for `explainPlace`: the reading itself keeps only what is
 * plain and small.
 */
export function lightOf({ views, intent, leftOut }: ReadingInput): LightResult {
  return readLight(views.middle, { light: intent.light ?? null, leftOut });
}

const PHOTOGRAPHED: Evidence = {
  level: 'weak',
  reason: 'A photograph of a work shows the light of the room as well, so its light is not judged.',
};

function read(input: ReadingInput): Reading<LightValue> {
  const result = lightOf(input);
  const map = (field: Field) => () => field;
  return {
    value: lightValue(result),
    evidence: input.photographed ? PHOTOGRAPHED : result.evidence,
    maps: {
      neutral: map(result.neutral),
      opposite: map(result.opposite),
      proposedOut: map(result.proposedOut),
    },
  };
}
