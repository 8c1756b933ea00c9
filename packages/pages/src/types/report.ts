import type {
  CurvePoint,
  Drawing,
  ExaminedMeasure,
  Finding,
  Look,
  Outcome,
  PictureFacts,
  ReadingId,
} from '@halflight/engine';
import type { PagePicture, PaletteColour } from './picture.ts';

/** Whose page it is: one's own (everything), a student's (what to do), a client's (the way of the picture). */
export type ReportKind = 'own' | 'student' | 'client';

/** Everything a report can show of one picture; each kind of page takes its part. */
export interface ReportData {
  readonly schema: 'halflight/report@1';
  readonly title: string;
  readonly author?: string;
  /** When the report was made, ISO 8601. */
  readonly made: string;
  readonly picture: PictureFacts;
  /** The picture as it is handed over: after the edit, when there is one. */
  readonly now: PagePicture;
  /** The same picture small (about 400 px), to show places on. */
  readonly small: PagePicture;
  /** What it is compared with: without the edit, or an earlier version. */
  readonly before?: { readonly label: string; readonly picture: PagePicture };
  /** The picture as painted and after each of `steps`, small; absent without an edit. */
  readonly stages?: readonly PagePicture[];
  /** What was decided, a sentence each. */
  readonly intent: readonly string[];
  /** What was left open, a phrase each. */
  readonly undecided: readonly string[];
  /** Open ones first, the weightiest first; then those that were answered. */
  readonly findings: readonly ReportFinding[];
  /** What is as it should be, a sentence each. */
  readonly fine: readonly string[];
  /** Readings that can't tell, with their reason. */
  readonly untold: readonly { readonly title: string; readonly reason: string }[];
  readonly steps: readonly ReportStep[];
  readonly readings: readonly ReportReading[];
  /** The colours that carry the picture; empty when they were not asked for. */
  readonly palette: readonly PaletteColour[];
  /** How it came to be; absent for a picture without versions. */
  readonly process?: ReportProcess;
  readonly looks: readonly Look[];
  /** When it was called done, ISO 8601. */
  readonly decided?: { readonly at: string; readonly version: number };
}

/** A finding with what was answered to it. */
export interface ReportFinding
  extends Pick<Finding, 'key' | 'reading' | 'severity' | 'text' | 'number' | 'todo' | 'origin' | 'places'> {
  readonly answer?: {
    readonly kind: 'willDo' | 'meantSo' | 'wrong';
    readonly reason?: string;
    /** What a later version said to a "will do". */
    readonly outcome?: Outcome;
  };
}

/** One step of the edit, in words. */
export interface ReportStep {
  /** The kind of step in a word or two. */
  readonly title: string;
  /** What it does and where, one sentence. */
  readonly sentence: string;
  /** Why a proposal put it there. */
  readonly reason?: string;
}

export interface ReportReading {
  readonly id: ReadingId;
  readonly title: string;
  readonly about: string;
  readonly drawing: Drawing;
  /** The maps that the drawing names, painted. */
  readonly maps: Readonly<Record<string, PagePicture>>;
  readonly measures: readonly ExaminedMeasure[];
}

export interface ReportProcess {
  /** The versions on the curve of effort and impact, in their order. */
  readonly points: readonly CurvePoint[];
  readonly versions: readonly ReportVersion[];
  /** What the last versions still changed, one sentence; null while work still changes something. */
  readonly sentence: string | null;
}

export interface ReportVersion {
  readonly number: number;
  /** When it came, ISO 8601. */
  readonly added: string;
  readonly small: PagePicture;
  /** What it changed, one sentence; absent for the first. */
  readonly change?: string;
  readonly minutes?: number;
}
