import { sentence as capitalised, type Finding, listOf } from '@halflight/engine';
import type { Style } from '../terminal/style.ts';
import { wrap } from '../terminal/wrap.ts';
import { drawStrips } from './drawStrips.ts';
import type { Looked } from './look.ts';
import { colourLines } from './places.ts';

/** Places of one finding that are listed with their colours. */
const MOST_PLACES = 5;

/** What was seen of one picture, for people: findings first, then its colours, then what is fine or open. */
export function report(looked: Looked, style: Style): string {
  const { paint } = style;
  const blocks = [
    heading(looked, style),
    ...looked.findings.map((finding) => findingBlock(finding, looked, style)),
    ...(looked.findings.length === 0 ? [nothingFound(looked, style)] : []),
    ...(style.colours ? drawStrips(looked.strips, style) : []),
    ...quietBlocks(looked, style).map((block) => paint.dim(block)),
  ];
  return `${blocks.filter(Boolean).join('\n\n')}\n`;
}

function heading({ picture }: Looked, { paint }: Style): string {
  const { name, width, height, depth, profile } = picture;
  return `${paint.bold(name)}\n${paint.dim(`${width} × ${height}, ${depth} bit, ${profile}`)}`;
}

function findingBlock(finding: Finding, looked: Looked, { paint, width }: Style): string {
  const { evidence } = looked.readings.find((reading) => reading.id === finding.reading)!;
  const sure = evidence.level === 'fair' ? ` Fairly sure: ${lowered(evidence.reason)}` : '';
  // The largest places; scripts get all of them.
  const colours = colourLines((finding.places ?? []).slice(0, MOST_PLACES), looked.space);
  return [
    paint.bold(wrap(finding.text, width)),
    paint.dim(wrap(`${sentence(finding.number)}${sure}`, width, '  ')),
    wrap(finding.todo, width, '  '),
    ...colours.map((line) => `  ${line}`),
  ].join('\n');
}

function nothingFound({ readings }: Looked, { paint, width }: Style): string {
  const can = readings.some((reading) => reading.evidence.level !== 'weak');
  return paint.bold(wrap(can ? 'Nothing stands in its way.' : 'There is too little here to tell.', width));
}

/** Everything that is not a finding: what is fine, what can't be told, what is open, what to know of the file. */
function quietBlocks({ readings, undecided, notes }: Looked, { width }: Style): string[] {
  const fine = readings.flatMap((reading) => reading.fine ?? []);
  const unsure = readings
    .filter(({ evidence }) => evidence.level === 'weak' && !evidence.unasked)
    .map(({ title, evidence }) => `${title}: ${lowered(evidence.reason)}`);
  const list = (head: string, lines: readonly string[]): string =>
    [head, ...lines.map((line) => wrap(line, width, '  '))].join('\n');
  return [
    ...(fine.length > 0 ? [list('Fine', fine)] : []),
    ...(unsure.length > 0 ? [list('Can’t tell', unsure)] : []),
    ...(undecided.length > 0 ? [wrap(`Not decided yet: ${listOf(undecided)}.`, width)] : []),
    ...notes.map((note) => wrap(note, width)),
  ];
}

function sentence(text: string): string {
  const whole = capitalised(text);
  return /[.!?]$/.test(whole) ? whole : `${whole}.`;
}

/** Goes on after a colon; a word that is written large anyway (an abbreviation) stays. */
function lowered(text: string): string {
  const whole = sentence(text);
  return /^[A-Z][^a-z]/.test(whole) && !/^A /.test(whole)
    ? whole
    : whole.charAt(0).toLowerCase() + whole.slice(1);
}
