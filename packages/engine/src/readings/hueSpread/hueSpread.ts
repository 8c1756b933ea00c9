import { HUE_EVIDENCE } from '../../findings/thresholds/hueSpread.ts';
import { percent } from '../../findings/wording.ts';
import type { Field } from '../../views/view.ts';
import { censusFor } from '../censusFor.ts';
import type { Evidence, Reading, ReadingInput, ReadingKind } from '../reading.ts';
import { drawHues } from './draw.ts';
import { countedFamilies, hueFindings, hueFine } from './findings.ts';
import { STEPS } from './histogram.ts';
import { measureHues } from './measure.ts';
import { hueMap, strayHues } from './strays.ts';
import type { HueSpreadValue } from './types.ts';

/** Reading 1: how far the picture's hues spread, in which families, and what strays from the plan. */
export const hueSpread: ReadingKind<HueSpreadValue> = {
  id: 'hueSpread',
  title: 'Hue spread',
  about: 'How far the hues spread, which families they form, and what strays from them.',
  sources: [
    'Ottosson 2020, OKLab: hue and chroma',
    'Hill 1973, effective number of order 1 (on a hue density of 20° width)',
    'Cohen-Or et al. 2006, hue templates (here on OKLCh hue instead of HSV)',
    'Hasler & Süsstrunk 2003, colourfulness',
  ],
  measures: [
    { key: 'effectiveHues', label: 'spread of hues', unit: 'hues', digits: 1, get: (v) => v.effectiveHues },
    {
      key: 'spanDegrees',
      label: 'arc of most of the colour',
      unit: '°',
      digits: 0,
      get: (v) => v.spanDegrees,
    },
    { key: 'families', label: 'hue families', unit: '', digits: 0, get: (v) => countedFamilies(v).length },
    {
      key: 'strayShare',
      label: 'colour outside the leading families',
      unit: '%',
      digits: 0,
      get: (v) => (v.strayShare === null ? null : 100 * v.strayShare),
    },
    { key: 'colourfulness', label: 'colourfulness', unit: '', digits: 0, get: (v) => v.colourfulness },
    {
      key: 'chromaticShare',
      label: 'area that has a hue',
      unit: '%',
      digits: 0,
      get: (v) => 100 * v.chromaticShare,
    },
  ],
  mapFiles: { strays: 'hue-strays' },
  needs: (intent) => intent.hue,
  read,
  findings: hueFindings,
  fine: hueFine,
  draw: drawHues,
};

function read(input: ReadingInput): Reading<HueSpreadValue> {
  const { value, plan } = measureHues(censusFor(input), input.intent.hue);
  const { views, leftOut } = input;
  const over = (wanted: Float64Array) => (): Field => hueMap(views.close, wanted, leftOut);
  const maps: Record<string, () => Field> = { strays: over(strayHues(plan)) };
  if (plan.accent) maps.accent = over(plan.accentOnly);
  value.families.forEach((family, i) => {
    const arc = new Float64Array(STEPS);
    const width = (family.to - family.from + STEPS) % STEPS || STEPS;
    for (let k = 0; k < width; k++) arc[(family.from + k) % STEPS] = 1;
    maps[`family${i + 1}`] = over(arc);
  });
  return { value, evidence: evidenceOf(value, input), maps };
}

function evidenceOf({ chromaticShare }: HueSpreadValue, { census }: ReadingInput): Evidence {
  const { weakShare, fairShare, weakArea, fairArea } = HUE_EVIDENCE;
  if (census.count === 0) return { level: 'weak', reason: 'The picture is transparent throughout.' };
  if (census.area < weakArea) return { level: 'weak', reason: 'The picture is too small to judge its hues.' };
  if (chromaticShare < weakShare)
    return { level: 'weak', reason: 'There is next to no colour in the picture.' };
  if (chromaticShare < fairShare)
    return { level: 'fair', reason: `Only ${percent(chromaticShare)} of the picture has a hue.` };
  if (census.area < fairArea) return { level: 'fair', reason: 'The picture is small.' };
  return { level: 'strong', reason: `${percent(chromaticShare)} of the picture has a hue.` };
}
