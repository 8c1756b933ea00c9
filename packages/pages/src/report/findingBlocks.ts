import { cssHex, sentence } from '@halflight/engine';
import type { Block, Mark, Note } from '../page/page.ts';
import { ended } from '../page/words.ts';
import type { ReportData, ReportFinding } from '../types/report.ts';
import { answerSentence } from './words.ts';

/** Places that are outlined on a picture: more would hide it. */
const MOST_PLACES = 12;

/** Every finding with what to do and where, and what was answered. */
export function findings(data: ReportData): Block[] {
  const open = data.findings.filter((finding) => !isSettled(finding));
  const settled = data.findings.filter(isSettled);
  return [
    { kind: 'heading', text: 'What stands in its way' },
    ...(open.length > 0
      ? [{ kind: 'notes', notes: open.map((finding, k) => findingNote(finding, k, data)) } as const]
      : [{ kind: 'text', as: 'text', text: 'Nothing stands in its way.' } as const]),
    ...(settled.length > 0
      ? [
          { kind: 'heading', text: 'What was answered' } as const,
          { kind: 'notes', notes: settled.map(settledNote) } as const,
        ]
      : []),
  ];
}

const isSettled = ({ answer }: ReportFinding): boolean =>
  answer?.kind === 'meantSo' || answer?.kind === 'wrong';

function findingNote(finding: ReportFinding, k: number, { small, title }: ReportData): Note {
  const { text, todo, number, origin, places = [] } = finding;
  const said = answerSentence(finding);
  const [swatches] = places.flatMap((place) => (place.swatches ? [place.swatches] : []));
  const marks = outlines(finding);
  return {
    label: String(k + 1),
    lead: text,
    body: [todo, ...(said ? [said] : [])],
    margin: [ended(sentence(number)), ended(sentence(origin.text))],
    ...(marks.length > 0 && {
      place: { picture: small, alt: `${title}, with the places of note ${k + 1} outlined`, marks },
    }),
    ...(swatches && { swatches: swatches.map(({ label, rgb }) => ({ label, hex: cssHex([...rgb]) })) }),
  };
}

function settledNote(finding: ReportFinding): Note {
  return {
    lead: finding.text,
    body: [answerSentence(finding) ?? ''],
    margin: [ended(sentence(finding.number))],
  };
}

/** Outlines of the places of a finding, the largest first. */
function outlines({ places = [] }: ReportFinding): Mark[] {
  return places.slice(0, MOST_PLACES).map(({ x, y, width, height, outline }) => ({
    kind: 'outline',
    points: outline ?? [x, y, x + width, y, x + width, y + height, x, y + height],
  }));
}

/** The largest places of every open finding, with its number. */
export function numberedMarks(data: ReportData): Mark[] {
  return openOnes(data).flatMap((finding, k) =>
    outlines(finding)
      .slice(0, 3)
      .map((mark, i) => ({ ...mark, ...(i === 0 && { label: String(k + 1) }) })),
  );
}

const openOnes = ({ findings }: ReportData): ReportFinding[] => findings.filter((f) => !isSettled(f));

/** What is as it should be, and what can't be told. */
export function fine({ fine, untold }: ReportData): Block[] {
  return [
    ...(fine.length > 0
      ? [
          { kind: 'heading', text: 'What is as it should be' } as const,
          { kind: 'text', as: 'text', text: fine.join(' ') } as const,
        ]
      : []),
    ...untold.map(
      ({ title, reason }): Block => ({
        kind: 'text',
        as: 'caption',
        text: `${title} can’t be told from the picture: ${reason.charAt(0).toLowerCase()}${reason.slice(1)}`,
      }),
    ),
  ];
}

/** What is as it should be, for a student. */
export function strengths({ fine }: ReportData): Block[] {
  if (fine.length === 0) return [];
  return [
    { kind: 'heading', text: 'What already works' },
    ...fine.map((text): Block => ({ kind: 'text', as: 'text', text })),
  ];
}

/** What to do next, for a student: the picture above has the places. */
export function toDo(data: ReportData): Block[] {
  const open = openOnes(data);
  if (open.length === 0)
    return [{ kind: 'text', as: 'note', text: 'Nothing stands in its way. Stand back and decide.' }];
  const notes = open.map((finding, k): Note => {
    const { place: _onThePictureAbove, ...note } = findingNote(finding, k, data);
    return { ...note, margin: note.margin.slice(0, 1) };
  });
  return [
    { kind: 'heading', text: 'What to do next' },
    { kind: 'notes', notes },
  ];
}
