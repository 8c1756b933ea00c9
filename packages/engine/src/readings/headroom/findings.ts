import type { Finding } from '../../findings/finding.ts';
import { DARK_KEY, HEADROOM } from '../../findings/thresholds/headroom.ts';
import { forArtist, severityOf, type Threshold } from '../../findings/thresholds/threshold.ts';
import { percent, percentBeside, sentence } from '../../findings/wording.ts';
import type { Baseline } from '../../intent/baseline.ts';
import type { Intent } from '../../intent/intent.ts';
import type { Reading, ReadingInput } from '../reading.ts';
import type { HeadroomValue } from './types.ts';

/** Findings of the headroom: closed darks, closed lights, colours at the edge of what can be shown. */
export function headroomFindings(
  { value }: Reading<HeadroomValue>,
  { baseline, intent }: ReadingInput,
): Finding[] {
  const one = (
    key: 'darks' | 'lights' | 'colours',
    share: number,
    text: string,
    todo: string,
  ): Finding | null => {
    const threshold = endsThreshold(key, intent, baseline);
    // An edit is kept from nothing but colours: even a night has room in its lights, so that this never blocks alone.
    const severity = 0.8 * severityOf(share, threshold);
    if (severity === 0) return null;
    return {
      key: `headroom.${key}`,
      reading: 'headroom',
      severity,
      text,
      number: `${percentBeside(share, threshold.from)} of the picture is there (from ${percent(threshold.from)}); ${limits(value)}`,
      todo,
      origin: threshold.origin,
      map: 'ends',
    };
  };
  return [
    one(
      'darks',
      value.darksShare,
      `Darks are closed: ${percent(value.darksShare)} of the picture has no room below.`,
      'Lift the deepest darks a little, or glaze the light of the scene into them; keep black for one accent.',
    ),
    one(
      'lights',
      value.lightsShare,
      `Lights are closed: ${percent(value.lightsShare)} of the picture has no room above.`,
      'Bring the lights down a step, so that they can still be given a colour.',
    ),
    one(
      'colours',
      value.coloursShare,
      `${percent(value.coloursShare)} of the picture is painted at the edge of the colours that can be shown.`,
      'Take a little chroma out of the strongest areas before editing; keep the edge for the accent.',
    ),
  ].filter((f) => f !== null);
}

/** From where on a share at an end is a finding. */
export function endsThreshold(
  key: 'darks' | 'lights' | 'colours',
  intent: Intent,
  baseline: Baseline | null,
): Threshold {
  const usual = key === 'darks' && wantsDark(intent) ? HEADROOM.darksByDecision : HEADROOM[key];
  return forArtist(usual, baseline, `headroom.${key}Share`, 0.01);
}

/** A dark key was decided: closed darks are part of the plan up to a point. */
function wantsDark({ mood }: Intent): boolean {
  const key = mood?.axes.key;
  return key !== undefined && key.at <= DARK_KEY;
}

/** The two nearest ends in words: "warming by more than 20 mired will clip". */
function limits(value: HeadroomValue): string {
  const near = nearest(value).slice(0, 2);
  if (near.length === 0) return 'an edit may still go any way';
  return `${near.map((d) => d.beyond).join(' and ')} will clip more`;
}

interface Direction {
  /** How far it goes, against a change that one would call large. */
  readonly reach: number;
  readonly beyond: string;
}

function nearest(v: HeadroomValue): Direction[] {
  const all: (Direction | null)[] = [
    direction(v.exposureUp, 1, 'exposing up', (x) => `${x.toFixed(1)} stops`),
    direction(v.exposureDown, 1, 'exposing down', (x) => `${x.toFixed(1)} stops`),
    direction(v.contrast, 0.4, 'contrast', percent),
    direction(v.chromaGain === null ? null : v.chromaGain - 1, 0.5, 'chroma', percent),
    direction(v.warmer, 60, 'warming', (x) => `${x.toFixed(0)} mired`),
    direction(v.cooler, 60, 'cooling', (x) => `${x.toFixed(0)} mired`),
  ];
  return all.filter((d) => d !== null && d.reach < 1).sort((a, b) => a!.reach - b!.reach) as Direction[];
}

/** A direction with less room than a twentieth of a large change has none. */
function direction(
  amount: number | null,
  large: number,
  name: string,
  words: (amount: number) => string,
): Direction | null {
  if (amount === null) return null;
  const reach = amount / large;
  return { reach, beyond: reach < 0.05 ? `any ${name}` : `${name} by more than ${words(amount)}` };
}

/** What to say when nothing is wrong, about this picture. */
export function headroomFine({ value }: Reading<HeadroomValue>): string {
  const [first] = nearest(value);
  if (!first) return 'Nothing is painted to its end: an edit may go any way.';
  return sentence(`There is room to edit; ${first.beyond} would be the first to clip.`);
}
