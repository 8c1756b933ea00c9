import { hueName } from '../colour/words.ts';
import type { Step } from '../edits/step.ts';
import type { Finding } from '../findings/finding.ts';
import { listOf, sentence } from '../findings/wording.ts';
import type { HueArc } from '../intent/intent.ts';
import type { Slot } from './slots.ts';
import type { MeasureChange } from './types.ts';

/** What a step does, as the beginning of a sentence. */
export function doing(step: Step, slot: Slot): string {
  const v = (key: string): number => step.values[key] ?? 0;
  const kept = namesOf(step.data?.families ?? []);
  const families = listOf(kept);
  const where = slot.where ? ` ${slot.where}` : '';
  switch (step.kind) {
    case 'relight':
      return `Giving the shade${where} the colour that this light leaves in it`;
    case 'gatherHues':
      return `Drawing the other hues ${v('amount')} % of the way to ${families}${slot.keeps ? `, but for ${slot.keeps}` : ''}`;
    case 'calmStrays':
      return `Taking ${v('amount')} % of their chroma from hues other than ${listOf([...kept, ...(slot.keeps ? [slot.keeps] : [])])}${where}`;
    case 'match':
      return `Moving the whole colouring ${v('amount')} % of the way to ${slot.name}`;
    case 'warmth':
      return `${v('mired') > 0 ? 'Warming' : 'Cooling'} the light by ${Math.abs(v('mired'))} mired`;
    case 'exposure':
      return `${v('stops') > 0 ? 'More' : 'Less'} light${where || ' on the whole'}, by ${Math.abs(v('stops')).toFixed(2)} stops`;
    case 'contrast':
      return `${v('amount') > 0 ? 'Spreading' : 'Drawing together'} lights and darks about the middle value`;
    case 'valueGroups':
      return sentence(`moving ${listOf(moved(step))}`);
    case 'chroma':
      return step.values.gain > 1
        ? `Strengthening all colours by ${Math.round(100 * (step.values.gain - 1))} %`
        : `Calming all colours by ${Math.round(100 * (1 - step.values.gain))} %`;
    case 'openEnds':
      return sentence(listOf(opened(step)));
    default:
      return sentence(step.kind);
  }
}

function moved({ values }: Step): string[] {
  return ['darks', 'middles', 'lights'].flatMap((key) => {
    const by = values[key] ?? 0;
    return by === 0 ? [] : [`the ${key} ${by > 0 ? 'up' : 'down'} by ${Math.abs(by)} %`];
  });
}

function opened({ values }: Step): string[] {
  const out: string[] = [];
  if (values.darks) out.push(`lifting the deepest darks by ${values.darks} %`);
  if (values.lights) out.push(`bringing the highest lights down by ${values.lights} %`);
  if (values.chroma) out.push(`taking ${values.chroma} % from the strongest colours`);
  return out;
}

function namesOf(families: readonly HueArc[]): string[] {
  return [...new Set(families.map((f) => hueName(f.hue)))];
}

/** Why a step is there: the finding, what the step does, and what it brings. */
export function reasonFor(
  step: Step,
  slot: Slot,
  finding: Finding | null,
  moves: readonly MeasureChange[],
  guards: readonly string[],
): string {
  const brings = moves.map(changeInWords);
  const effect =
    brings.length > 0
      ? `: ${listOf(brings)}.`
      : guards.length > 0
        ? `, so that under the other steps ${listOf(guards)}.`
        : '.';
  return `${finding ? `${finding.text} ` : ''}${doing(step, slot)}${effect}`;
}

/** "spread of hues 4.2 → 3.1". */
export function changeInWords({ label, unit, digits, before, after }: MeasureChange): string {
  const show = (v: number): string => v.toFixed(digits).replace('-', '−');
  return `${label} ${show(before)} → ${show(after)}${unit && unit !== 'hues' ? ` ${unit}` : ''}`;
}

/** A finding below this severity is hardly one any more: they begin at 0.2, those of the ends at 0.16. */
const BARELY = 0.23;

const REPAINT: Readonly<Record<string, string>> = {
  'light.neutral': 'What is left is too small or too mixed for an edit.',
  'light.opposite': 'What is left is too small or too mixed for an edit.',
  'detail.overworked': 'An edit of colours can’t take strokes out.',
  'detail.focusCoarse': 'An edit of colours can’t draw.',
  'value.scattered': 'An edit moves values but does not join shapes.',
  'mood.softness': 'Edges are drawn, not coloured.',
  'mood.hueSpread': 'An edit can gather hues but not invent one in its place.',
  'hueSpread.accent':
    'Which place keeps the accent is yours to choose; draw the focus, and the rest can be calmed.',
};
const REPAINT_READING: Readonly<Record<string, string>> = {
  light: 'A light that is not painted can’t be turned up: shade needs its own colour, surface by surface.',
  openDecisions: 'Only you can decide which of them stay.',
  detail: 'An edit of colours can’t draw.',
};

/**
 * Why an edit can't do it, and what to do with the brush.
 *
 * @param left what is found after the edit, where it goes a part of the way
 */
export function repaintWords(finding: Finding, left: Finding | null): string {
  const why =
    REPAINT[finding.key] ??
    REPAINT_READING[finding.reading] ??
    (left !== null
      ? left.severity < BARELY
        ? `The edit brings it to the very edge of being told, no farther: ${left.number}.`
        : `The edit goes a part of the way: ${left.number}.`
      : 'No edit that keeps the rest of the picture reaches it.');
  return `${why} ${(left ?? finding).todo}`;
}
