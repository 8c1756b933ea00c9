import { linearToOklab, oklabToLinear } from '../colour/oklab.ts';
import { stepKind } from '../edits/list.ts';
import { type Parameter, type Recipe, type Step, settingOf } from '../edits/step.ts';
import type { ReadingInput } from '../readings/reading.ts';
import type { View } from '../views/view.ts';
import type { Measured } from './measured.ts';
import { smallEditor } from './smallEditor.ts';

/** One direction of an option sheet: a number of the step, or the hue of what it is given (`hue`, in degrees). */
export interface OptionAxis {
  readonly key: string;
  readonly label: string;
  readonly unit: string;
  readonly digits: number;
  /** From left to right, or from top to bottom. */
  readonly values: readonly number[];
}

/** What an option sheet is made of. */
export interface OptionSheet {
  readonly input: ReadingInput;
  readonly recipe: Recipe;
  /** Which step of the recipe is varied. */
  readonly index: number;
  readonly across: OptionAxis;
  /** Null for a step with one number: its pictures then follow each other. */
  readonly down: OptionAxis | null;
  /** Long side of the small pictures. */
  readonly longSide: number;
}

/** One small picture of the sheet. */
export interface Option {
  readonly column: number;
  readonly row: number;
  /** The recipe with this setting. */
  readonly recipe: Recipe;
  readonly view: View;
  /** Distance from the intended mood in steps, as of the mood reading; null when none is intended. */
  readonly distance: number | null;
}

const COLUMNS = 5;
const ROWS = 4;
const ALONE = 12;
/** Degrees by which hues of a plan, an accent or a fog are turned. */
const TURNS = [-30, -15, 0, 15, 30];

/** The two directions that suit a step, about where it stands: 12 to 25 pictures. */
export function optionAxes(step: Step): { readonly across: OptionAxis; readonly down: OptionAxis | null } {
  const { parameters } = stepKind(step.kind);
  const [first, second] = parameters;
  if (second) return { across: axisOf(step, first, COLUMNS), down: axisOf(step, second, ROWS) };
  if (step.data?.families || step.data?.colour)
    return {
      across: { key: 'hue', label: 'hue', unit: '°', digits: 0, values: TURNS },
      down: axisOf(step, first, ROWS),
    };
  return { across: axisOf(step, first, ALONE), down: null };
}

/** Evenly spaced values from nothing to about twice what is set, or to both sides of nothing where it goes both ways. */
function axisOf(step: Step, parameter: Parameter, count: number): OptionAxis {
  const { key, label, unit, digits, min, max, neutral, first } = parameter;
  const now = settingOf(step, parameter);
  const reach = 2 * Math.max(Math.abs(now - neutral), Math.abs(first - neutral), 2 * 10 ** -digits);
  const low = Math.max(min, neutral - (min < neutral ? reach : 0));
  const high = Math.min(max, neutral + reach);
  const values = Array.from({ length: count }, (_, k) =>
    Number((low + ((high - low) * k) / (count - 1)).toFixed(digits)),
  );
  return { key, label, unit, digits, values: [...new Set(values)] };
}

/** The step with an axis at a value. */
export function atOption(step: Step, { key }: OptionAxis, value: number): Step {
  if (key !== 'hue') return { ...step, values: { ...step.values, [key]: value } };
  const { families, colour } = step.data ?? {};
  return {
    ...step,
    data: {
      ...step.data,
      ...(families ? { families: families.map((f) => ({ ...f, hue: (f.hue + value + 360) % 360 })) } : {}),
      ...(colour ? { colour: turned(colour, value) } : {}),
    },
  };
}

function turned(rgb: readonly [number, number, number], degrees: number): [number, number, number] {
  const [L, a, b] = linearToOklab(rgb);
  const t = (degrees * Math.PI) / 180;
  const [x, y, z] = oklabToLinear([L, a * Math.cos(t) - b * Math.sin(t), a * Math.sin(t) + b * Math.cos(t)]);
  return [x, y, z];
}

/**
 * Makes the small pictures of an option sheet one by one, row by row; stop asking to cancel.
 *
 * @param before the numbers of the picture as the readings have them (`measuredIn`): the mood of a small picture is
 * told from how far it moves them
 */
export function* optionSheet(sheet: OptionSheet, before: Measured): Generator<Option, void> {
  const { input, recipe, index, across, down, longSide } = sheet;
  const editor = smallEditor(input, recipe, longSide, before);
  for (const [row, y] of (down?.values ?? [null]).entries())
    for (const [column, x] of across.values.entries()) {
      const one = atOption(recipe.steps[index], across, x);
      const step: Step = { ...(down && y !== null ? atOption(one, down, y) : one), on: true };
      const steps = recipe.steps.map((s, k) => (k === index ? step : s));
      yield { column, row, recipe: { ...recipe, steps }, ...editor(steps) };
    }
}
