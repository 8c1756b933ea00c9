import type { Area } from '../areas/area.ts';
import type { HueArc } from '../intent/intent.ts';

/** One step of an edit, as it is kept. */
export interface Step {
  readonly kind: StepId;
  readonly on: boolean;
  /** 0 (nothing) to 1 (as the values say). */
  readonly strength: number;
  /** Numbers of the kind's parameters; what is missing is neutral. */
  readonly values: Readonly<Record<string, number>>;
  /** What the kind needs besides numbers: families, colours, statistics of an example. */
  readonly data?: StepData;
  /** Where it works; everywhere when absent. */
  readonly area?: Area;
  /** Why a proposal put it there. */
  readonly reason?: string;
}

export type StepId =
  | 'exposure'
  | 'contrast'
  | 'chroma'
  | 'hueTurn'
  | 'warmth'
  | 'gatherHues'
  | 'calmStrays'
  | 'openEnds'
  | 'valueGroups'
  | 'relight'
  | 'veil'
  | 'accent'
  | 'match';

export interface StepData {
  /** Hue families (OKLCh degrees) to gather to or to keep. */
  readonly families?: readonly HueArc[];
  /** Hues that stay as they are without drawing others to them: an accent. */
  readonly keep?: readonly HueArc[];
  /** A colour in linear sRGB light: of the veil, of the accent. */
  readonly colour?: readonly [number, number, number];
  /** Gains of linear red, green and blue that turn the painted shade into the scene's. */
  readonly gains?: readonly [number, number, number];
  /** For a sky: gains of its warm colours, and which colours are cool and warm; `gains` are then those of the cool. */
  readonly across?: {
    readonly cool: readonly [number, number, number];
    readonly warm: readonly [number, number, number];
    readonly gains: readonly [number, number, number];
  };
  /** Mean and covariance (row-major 3 × 3) in OKLab of the picture and of its example. */
  readonly from?: ColourStatistics;
  readonly to?: ColourStatistics;
}

export interface ColourStatistics {
  readonly mean: readonly number[];
  readonly covariance: readonly number[];
}

/** An edit: steps in the order in which they work. */
export interface Recipe {
  readonly schema: 'halflight/recipe@1';
  readonly steps: readonly Step[];
  /** Outlines that no proposal may touch, in shares of width and height; what the artist does by hand is free. */
  readonly kept?: readonly (readonly number[])[];
}

export const EMPTY_RECIPE: Recipe = { schema: 'halflight/recipe@1', steps: [] };

/**
 * Changes one colour in place. `amount` (0…1) is strength times cover; 0 must leave the numbers as they are.
 *
 * A kernel works on linear sRGB light, unclipped, or on OKLab: kernels on OKLab that follow each other share the
 * conversion. It returns false when the colour stays exactly as it is. Three numbers at `at`.
 */
export interface Kernel {
  readonly on: 'light' | 'oklab';
  readonly change: (colour: Float64Array, at: number, amount: number) => boolean;
}

/** A number of a step that can be changed. */
export interface Parameter {
  readonly key: string;
  readonly label: string;
  readonly unit: string;
  readonly min: number;
  readonly max: number;
  /** Value at which the step does nothing. */
  readonly neutral: number;
  /** A sensible first value. */
  readonly first: number;
  readonly digits: number;
}

/** A step as one description; screens, command line and documents are drawn from it. */
export interface StepKind {
  readonly id: StepId;
  readonly title: string;
  readonly about: string;
  /**
   * A sentence with a slot {key} for each parameter: "gather hues to the plan by {amount}". Parts of a list stand in
   * brackets, so that those with nothing to tell can be left out: "lay [fog of {scatter}|glow of {glow}] over it".
   */
  readonly sentence: string;
  readonly parameters: readonly Parameter[];
  /** Data without which the step can do nothing. */
  readonly needs: readonly (keyof StepData)[];
  /** True when colours alone decide what happens, so that a table can hold it. */
  kernel(step: Step): Kernel;
}

/** A parameter's value in a step, held to its range; neutral when it is missing. */
export function settingOf(step: Step, parameter: Parameter): number {
  const value = step.values[parameter.key] ?? parameter.neutral;
  return Math.min(parameter.max, Math.max(parameter.min, value));
}

/** Leaves every colour as it is. */
export const UNCHANGED: Kernel = { on: 'light', change: () => false };
