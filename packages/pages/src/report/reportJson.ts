import { sixDigits } from '@halflight/engine';
import type { ReportData } from '../types/report.ts';

/** A report as JSON (`halflight/report@1`) for programs. */
export function reportJson(data: ReportData): string {
  return `${JSON.stringify(reportTold(data), sixDigits, 2)}\n`;
}

/** What a report tells programs: everything that is said and measured, without pictures. */
export function reportTold(data: ReportData): object {
  const { now, small: _small, before, stages: _stages, readings, process, ...told } = data;
  return {
    ...told,
    now: { width: now.width, height: now.height },
    ...(before && { before: { label: before.label } }),
    readings: readings.map(({ id, title, drawing, measures }) => ({
      id,
      title,
      shows: drawing.sentence,
      measures: measures.map(({ key, label, unit, value }) => ({ key, label, unit, value })),
    })),
    ...(process && {
      process: { ...process, versions: process.versions.map(({ small: _its, ...version }) => version) },
    }),
  };
}
