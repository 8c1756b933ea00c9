import type {
  Drawing,
  Evidence,
  Examination,
  ExaminedReading,
  Field,
  Finding,
  Intent,
  Outcome,
  ReadingId,
  Recipe,
} from '@halflight/engine';
import { workingSteps } from '@halflight/engine';
import { ended } from '../page/words.ts';
import type { PagePicture } from '../types/picture.ts';
import type { ReportData, ReportFinding } from '../types/report.ts';
import { intentSentences, stepWords } from './words.ts';

/** The order in which drawings stand: what tells most of a picture's light and colour first. */
const ORDER: readonly ReadingId[] = ['light', 'hueSpread', 'value', 'mood', 'headroom', 'detail'];

/** What a report is made of, as the rest of the house has it. */
export interface ReportSources
  extends Pick<
    ReportData,
    | 'title'
    | 'author'
    | 'made'
    | 'picture'
    | 'now'
    | 'small'
    | 'before'
    | 'stages'
    | 'palette'
    | 'process'
    | 'looks'
    | 'decided'
  > {
  readonly intent: Intent;
  /** The edit that `now` shows; null without one. */
  readonly recipe: Recipe | null;
  /** The readings of `now`. */
  readonly examination: Pick<Examination, 'findings' | 'settled' | 'undecided'>;
  readonly readings: readonly ReadReading[];
  readonly answers: readonly GivenAnswer[];
}

/** A reading as it travels: its maps only where its drawing shows them. */
export interface ReadReading
  extends Pick<ExaminedReading, 'id' | 'title' | 'about' | 'fine' | 'drawing' | 'measures'> {
  readonly evidence: Evidence;
  readonly maps: Readonly<Record<string, PagePicture>>;
}

/** An answer to a finding, as works keep it. */
export interface GivenAnswer {
  readonly key: string;
  readonly kind: 'willDo' | 'meantSo' | 'wrong';
  readonly reason?: string;
  readonly outline?: readonly number[];
  readonly outcome?: { readonly state: Outcome };
}

/** Puts a report together. */
export function gatherReport(sources: ReportSources): ReportData {
  const { intent, recipe, examination, readings, answers, ...same } = sources;
  const told = readings.filter(({ evidence }) => evidence.level !== 'weak');
  return {
    schema: 'halflight/report@1',
    ...same,
    intent: intentSentences(intent),
    undecided: examination.undecided,
    findings: [...examination.findings, ...examination.settled].map((finding) =>
      withAnswer(finding, answers),
    ),
    fine: told.flatMap(({ fine }) => fine ?? []).map(ended),
    untold: readings
      // That a flat picture has no layers is nothing to tell.
      .filter(({ id, evidence }) => evidence.level === 'weak' && id !== 'openDecisions')
      .map(({ title, evidence }) => ({ title, reason: evidence.reason })),
    steps: recipe ? workingSteps(recipe).map(stepWords) : [],
    readings: ORDER.flatMap((id) => told.filter((reading) => reading.id === id)).map(
      ({ id, title, about, drawing, measures, maps }) => ({ id, title, about, drawing, measures, maps }),
    ),
  };
}

function withAnswer(finding: Finding, answers: readonly GivenAnswer[]): ReportFinding {
  const { key, reading, severity, text, number, todo, origin, places } = finding;
  // Answers about one place do not settle the finding.
  const answer = answers.findLast((one) => one.key === key && !one.outline);
  return {
    key,
    reading,
    severity,
    text,
    number,
    todo,
    origin,
    ...(places && { places }),
    ...(answer && {
      answer: {
        kind: answer.kind,
        ...(answer.reason && { reason: answer.reason }),
        ...(answer.outcome && { outcome: answer.outcome.state }),
      },
    }),
  };
}

/** A map as a small picture: RGB codes, row-major. */
export interface PaintedMap {
  readonly width: number;
  readonly height: number;
  readonly data: Uint8Array;
}

/** The maps that a drawing shows, with the colours of their steps. */
export function mapsIn({ shapes }: Drawing): { map: string; palette?: readonly string[] }[] {
  return shapes.flatMap((shape) =>
    shape.kind === 'map' ? [{ map: shape.map, ...(shape.palette && { palette: shape.palette }) }] : [],
  );
}

/** Paints a map with one colour per step of the palette, or as a ramp of greys; `most` pixels a side. */
export function paintMap(field: Field, palette: readonly string[] | undefined, most = 480): PaintedMap {
  const shrink = Math.min(1, most / Math.max(field.width, field.height));
  const width = Math.max(1, Math.round(field.width * shrink));
  const height = Math.max(1, Math.round(field.height * shrink));
  const colours = palette?.map((hex) => [1, 3, 5].map((at) => Number.parseInt(hex.slice(at, at + 2), 16)));
  const data = new Uint8Array(3 * width * height);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const column = Math.min(field.width - 1, Math.floor((x + 0.5) / shrink));
      const row = Math.min(field.height - 1, Math.floor((y + 0.5) / shrink));
      const value = Math.min(1, Math.max(0, field.data[row * field.width + column]));
      const grey = Math.round(255 * value);
      const step = colours?.[Math.round(value * (colours.length - 1))];
      data.set(step ?? [grey, grey, grey], 3 * (y * width + x));
    }
  return { width, height, data };
}
