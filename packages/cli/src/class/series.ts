import {
  type Consistency,
  consistencyOf,
  type FindingGroup,
  groupByFinding,
  type LineWork,
  type Recipe,
  type SeriesMeasure,
  type SeriesPlane,
  type SeriesStatistics,
  seriesMeasures,
  seriesPlane,
  seriesStatistics,
  towardsSeries,
  workOfLine,
} from '@halflight/engine';
import type { Entry } from './entry.ts';

/** A work that was read. */
export interface ReadWork {
  readonly entry: Entry;
  readonly line: LineWork;
}

/** What is said of the works together. */
export interface Series {
  readonly works: readonly ReadWork[];
  readonly unread: readonly Entry[];
  readonly statistics: Readonly<Record<string, SeriesStatistics>>;
  readonly common: readonly FindingGroup[];
  readonly plane: SeriesPlane & { readonly axes: readonly [SeriesMeasure, SeriesMeasure] };
  readonly consistency: Consistency;
  /** By the place of a work: the simplest edit that leads it towards the series, from its numbers alone. */
  readonly edits: ReadonlyMap<number, Recipe>;
}

/** Where works lie on the plane unless told otherwise. */
export const PLANE = ['mood.warmCool', 'mood.key'] as const;

/** Looks at all works together. Entries are sorted by name. */
export function seriesOf(entries: readonly Entry[], plane: readonly string[] = PLANE): Series {
  const works = entries.flatMap((entry) => {
    const line = workOfLine(entry.line);
    return line ? [{ entry, line }] : [];
  });
  const lines = works.map(({ line }) => line);
  const valuesOf = (name: string): (number | null)[] => lines.map(({ values }) => values[name] ?? null);
  const measures = seriesMeasures();
  const statistics = Object.fromEntries(
    measures.flatMap(({ name }) => {
      const found = seriesStatistics(valuesOf(name));
      return found ? [[name, found] as const] : [];
    }),
  );
  const consistency = consistencyOf(lines);
  const off = new Set(consistency.off.map(({ work }) => work));
  const axis = (name: string): SeriesMeasure => measures.find((one) => one.name === name)!;
  return {
    works,
    unread: entries.filter(({ trouble }) => trouble !== undefined),
    statistics,
    common: groupByFinding(lines).filter((group) => group.works.length > 1),
    plane: { ...seriesPlane(valuesOf(plane[0]), valuesOf(plane[1])), axes: [axis(plane[0]), axis(plane[1])] },
    consistency,
    edits: new Map(
      [...off].flatMap((at) => {
        const edit = towardsSeries(lines, at);
        return edit ? [[at, edit] as const] : [];
      }),
    ),
  };
}
