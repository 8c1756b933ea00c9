import type { Recipe, Step } from '../edits/step.ts';
import type { Answer } from '../findings/answer.ts';
import type { Finding } from '../findings/finding.ts';
import type { Examination } from '../readings/examine.ts';
import type { ReadingId, ReadingInput } from '../readings/reading.ts';

/** What a proposal is made from: plain data, nothing of it is changed. */
export interface ProposalRequest {
  /** The picture as the readings see it, with the intent and the baseline. */
  readonly input: ReadingInput;
  /** What the readings found in it, less what the answers settle. */
  readonly examination: Examination;
  /** The artist's answers: what is meant so, and where, is left alone. */
  readonly answers?: readonly Answer[];
  /** Outlines that no step may touch, in shares of width and height, x and y in turn. */
  readonly kept?: readonly (readonly number[])[];
}

/** The smallest edit that was found for the open findings, verified on the pixels of the middle view. */
export interface Proposal {
  /** No steps when no edit helps, or when none is needed. */
  readonly recipe: Recipe;
  /** One for each step of the recipe, in its order. */
  readonly steps: readonly ProposedStep[];
  /** Every open finding, the weightiest first, and what becomes of it. */
  readonly findings: readonly FindingChange[];
  /** What is found after the edit that was not found before: smaller than what it gains, or unseen until then. */
  readonly brings: readonly Finding[];
  /** What no edit can repair, and what to do instead. */
  readonly mustRepaint: readonly Repaint[];
  /** One or two sentences on the whole. */
  readonly summary: string;
  /** Mean ΔE_OK over the picture: how much it changes. */
  readonly change: number;
  /** How often a recipe was tried on the census. */
  readonly evaluations: number;
}

/** A step with its reason. */
export interface ProposedStep {
  readonly step: Step;
  /** In painter's words, one or two sentences; also in `step.reason`. */
  readonly reason: string;
  /** Keys of the findings that it works on. */
  readonly serves: readonly string[];
  /** Readings that this step moves most, before it and after it. */
  readonly moves: readonly MeasureChange[];
}

/** One number of a reading before and after; `before` and `after` are in `unit`. */
export interface MeasureChange {
  readonly reading: ReadingId;
  /** Key of the measure inside its reading, e.g. "effectiveHues". */
  readonly key: string;
  readonly label: string;
  readonly unit: string;
  readonly digits: number;
  readonly before: number;
  readonly after: number;
}

/** What becomes of a finding. */
export interface FindingChange {
  readonly finding: Finding;
  readonly outcome: 'met' | 'smaller' | 'same';
  /** Severity after the edit, 0 when it is met. */
  readonly severityAfter: number;
  /** The number behind the sentence after the edit; null when it is met. */
  readonly numberAfter: string | null;
}

/** A finding that an edit can't repair. */
export interface Repaint {
  readonly finding: Finding;
  /** Why not, and what to do with the brush, in whole sentences. */
  readonly why: string;
}
