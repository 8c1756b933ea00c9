import {
  countWord,
  type HueIntent,
  hueName,
  type Intent,
  type LightIntent,
  type Look,
  listOf,
  MOOD_AXES,
  MOOD_AXIS_NAMES,
  type MoodIntent,
  type Parameter,
  percent,
  SITUATIONS,
  type Step,
  sentence,
  settingOf,
  stepKind,
  stepSentence,
  unitAfter,
} from '@halflight/engine';
import { dayOf, ended } from '../page/words.ts';
import type { ReportFinding, ReportStep } from '../types/report.ts';

/** What was decided, a sentence for each part that was. */
export function intentSentences({ feel, mood, light, hue, focus, delivery }: Intent): string[] {
  return [
    ...(feel ? [ended(`Who sees it should feel ${feel}`)] : []),
    ...(mood ? [moodSentence(mood)] : []),
    ...(light ? [lightSentence(light)] : []),
    ...(hue ? [hueSentence(hue)] : []),
    ...(focus && focus.outlines.length > 0
      ? [
          `The eye should go to ${focus.outlines.length === 1 ? 'one place' : `${countWord(focus.outlines.length)} places`} that ${focus.outlines.length === 1 ? 'was' : 'were'} drawn.`,
        ]
      : []),
    ...(delivery
      ? [
          `It leaves in ${SPACES[delivery.space]}${delivery.longSide ? `, ${delivery.longSide} pixels on the long side` : ''}.`,
        ]
      : []),
  ];
}

const SPACES = { srgb: 'sRGB', 'display-p3': 'Display P3', 'a98-rgb': 'a98-rgb' } as const;

function moodSentence({ words, axes }: MoodIntent): string {
  if (words?.length) return `The mood is ${listOf(words)}.`;
  return `The mood is decided in ${listOf(MOOD_AXIS_NAMES.filter((axis) => axes[axis]).map((axis) => MOOD_AXES[axis].title))}.`;
}

function lightSentence(light: LightIntent): string {
  if (light.kind === 'asRead') return 'The light is as the picture shows it.';
  if (light.kind === 'surface') return 'The light is taken from one surface, lit and in shade.';
  const title = SITUATIONS.find(({ name }) => name === light.name)?.title ?? light.name;
  return `The light is ${title.charAt(0).toLowerCase()}${title.slice(1)}.`;
}

function hueSentence({ families, accent, limit }: HueIntent): string {
  const parts = [
    ...(families.length > 0
      ? [
          `${countWord(families.length)} hue ${families.length === 1 ? 'family' : 'families'}, ${listOf(families.map(({ hue }) => hueName(hue)))}`,
        ]
      : []),
    ...(accent ? [`an accent of ${hueName(accent.hue)}`] : []),
    ...(limit !== undefined ? [`a spread of ${limit} hues at most`] : []),
  ];
  return `Planned: ${parts.join('; ')}.`;
}

/** A step of the edit with its numbers in the sentence. */
export function stepWords(step: Step): ReportStep {
  const kind = stepKind(step.kind);
  const written = (p: Parameter): string => settingOf(step, p).toFixed(p.digits);
  const tells = (p: Parameter): boolean => Number(written(p)) !== p.neutral;
  const told = stepSentence(kind, tells).replace(/\{(\w+)\}/g, (slot, key) => {
    const parameter = kind.parameters.find((p) => p.key === key);
    if (!parameter) return slot;
    const { unit } = parameter;
    const value = written(parameter).replace('-', '−');
    return `${value}${unitAfter(unit)}`;
  });
  const weaker = step.strength < 1 ? `, at ${Math.round(100 * step.strength)}\u00a0%` : '';
  const where = step.area?.parts.length ? ', within an area' : '';
  return {
    title: kind.title,
    sentence: ended(`${sentence(told)}${weaker}${where}`),
    ...(step.reason && { reason: step.reason }),
  };
}

const OUTCOMES = { gone: 'is gone', smaller: 'is smaller, not gone', still: 'is still there' } as const;

/** What was answered to a finding, in one sentence; null while it is open. */
export function answerSentence({ answer }: ReportFinding): string | null {
  if (!answer) return null;
  const { kind, reason, outcome } = answer;
  if (kind === 'meantSo') return reason ? ended(`Meant so: ${reason}`) : 'Meant so.';
  if (kind === 'wrong')
    return reason ? ended(`The reading is mistaken here: ${reason}`) : 'The reading is mistaken here.';
  return outcome ? `To do; in the last version it ${OUTCOMES[outcome]}.` : 'To do.';
}

const VERDICTS = {
  done: 'It was called done.',
  oneMore: 'One more thing was to be done.',
  rest: 'It was put to rest.',
} as const;

/** A quiet look in a sentence or two. */
export function lookSentence({ at, version, by, seconds, mirrored }: Look): string {
  const who = by === 'guest' ? 'Another person’s look' : 'A look';
  return `${who} at version ${version}, ${dayOf(at)}: ${Math.max(1, Math.round(seconds))}\u00a0s${mirrored ? ', mirrored' : ''}.`;
}

/** What was said after a look. */
export function lookSaid({ mood, pulledOut, verdict }: Look): string[] {
  return [
    ...(mood !== undefined ? [`The mood was there to ${percent(mood)}.`] : []),
    ...(pulledOut?.word ? [ended(`Pulled out by: ${pulledOut.word}`)] : []),
    ...(verdict ? [VERDICTS[verdict]] : []),
  ];
}
