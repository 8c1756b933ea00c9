import { join } from 'node:path';
import { countWord, listOf, sentence, seriesMeasures } from '@halflight/engine';
import type { Style } from '../terminal/style.ts';
import { wrap } from '../terminal/wrap.ts';
import type { ClassSummary } from './finish.ts';

/** Said wherever pages of others' works are made. */
const CONSENT =
  'They show the works of others: pass them on only if they agree. They were made on this machine and sent nowhere.';

/** Names that are listed before "and more". */
const MOST_NAMES = 6;

/** What a class has in common, for people. Nobody is ranked. */
export function classText(summary: ClassSummary, out: string, { paint, width }: Style): string {
  const { title, works, unread, common, plane, series, pages } = summary;
  const parts = [
    paint.bold(`${title}: ${counted(works.length, 'work')} read`),
    ...section(
      'What several share',
      common
        .slice(0, 6)
        .map(({ text, works: which }) => `${sentence(countWord(which.length))} of ${works.length}: ${text}`),
    ),
    ...section('Who stands alone', alone(plane)),
    ...section('As a series', seriesLines(series, out)),
    ...section(
      'Could not be read',
      unread.map(({ error }) => error),
    ),
    wrap(
      `${counted(pages.length, 'file')} for people and the readings are in “${out}”; begin with overview.html. ${CONSENT}`,
      width,
    ),
  ];
  return `${parts.join('\n\n')}\n`;

  function section(head: string, lines: readonly string[]): string[] {
    return lines.length > 0 ? [[head, ...lines.map((line) => wrap(line, width, '  '))].join('\n')] : [];
  }
}

function alone({ across, up, alone }: ClassSummary['plane']): string[] {
  if (alone.length === 0) return [];
  const label = (name: string): string => seriesMeasures().find((one) => one.name === name)?.label ?? name;
  return [`By ${label(across)} and ${label(up)}: ${some(alone)}.`];
}

function seriesLines({ told, off, edits }: ClassSummary['series'], out: string): string[] {
  if (!told) return [];
  if (off.length === 0) return ['Hue plan, key, light and mood keep together.'];
  const led = edits.length > 0;
  return [
    ...off.map(({ name, text }) => `${name}: ${text}`),
    ...(led
      ? [
          `What leads ${some(edits.map(({ name }) => name))} towards it, from numbers alone, lies in ${join(out, 'series')}: halflight apply WORK --recipe FILE; then check it again.`,
        ]
      : []),
    `The smallest edit against what it has in common: halflight propose WORK --intent ${join(out, 'series.intent.json')}`,
  ];
}

const counted = (count: number, what: string): string => `${count} ${what}${count === 1 ? '' : 's'}`;

function some(names: readonly string[]): string {
  const more = names.length - MOST_NAMES;
  return listOf(more > 0 ? [...names.slice(0, MOST_NAMES), `${more} more`] : names);
}
