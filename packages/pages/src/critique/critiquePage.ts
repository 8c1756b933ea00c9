import type { Block, Mark, Note, Page } from '../page/page.ts';
import { ADVICE, CONSENT, dayOf } from '../page/words.ts';
import type { CritiqueData, CritiqueFinding, CritiqueMark, CritiquePoint } from '../types/critique.ts';

/** A page for one work of a class: the picture with what was drawn on it, praise first, then what to work on. */
export function critiquePage(data: CritiqueData): Page {
  const { title, who, by, assignment, made } = data;
  const points = [
    ...data.points.filter(({ kind }) => kind === 'praise'),
    ...data.points.filter(({ kind }) => kind === 'work'),
  ];
  const praised = data.points.filter(({ kind }) => kind === 'praise').length;
  const from = points.length;
  return {
    title: who ? `${who}: ${title}` : title,
    under: [...(assignment ? [assignment] : []), ...(by ? [`seen by ${by}`] : []), dayOf(made)].join(' · '),
    ...(by && { author: by }),
    blocks: [
      { kind: 'pictures', figures: [pictureOf(data, points)] },
      ...said('What is strong', points.slice(0, praised), 0),
      ...said('What to work on', points.slice(praised), praised),
      ...found(data.findings, from, points.length > 0),
      ...proposed(data),
      ...(data.closing ? [{ kind: 'text', as: 'note', text: data.closing } as const] : []),
    ],
    closing: [ADVICE, CONSENT],
  };
}

function pictureOf({ picture, title, findings }: CritiqueData, points: readonly CritiquePoint[]) {
  const marks = [
    ...points.flatMap((point, k) => numbered(point.marks.map(markOf), k + 1)),
    ...findings.flatMap(({ outlines = [] }, k) =>
      numbered(
        outlines.slice(0, 3).map((points) => ({ kind: 'outline', points })),
        points.length + k + 1,
      ),
    ),
  ];
  return { picture, alt: `${title}, with numbers at the places that the notes below speak of`, marks };
}

function markOf(mark: CritiqueMark): Mark {
  return mark.kind === 'pin' ? { kind: 'pin', points: mark.at } : mark;
}

/** The first mark of a note carries its number; every pin does, because a pin is nothing else. */
function numbered(marks: readonly Mark[], number: number): Mark[] {
  return marks.map((mark, i) => (i === 0 || mark.kind === 'pin' ? { ...mark, label: String(number) } : mark));
}

function said(heading: string, points: readonly CritiquePoint[], before: number): Block[] {
  if (points.length === 0) return [];
  const notes = points.map(({ text }, k): Note => {
    const [lead, ...rest] = text.split('\n').filter((line) => line.trim() !== '');
    return { label: String(before + k + 1), lead: lead ?? '', body: rest, margin: [] };
  });
  return [
    { kind: 'heading', text: heading },
    { kind: 'notes', notes },
  ];
}

function found(findings: readonly CritiqueFinding[], before: number, spoken: boolean): Block[] {
  if (findings.length === 0) return [];
  const notes = findings.map(
    ({ text, todo, number }, k): Note => ({
      label: String(before + k + 1),
      lead: text,
      body: [todo],
      margin: number ? [number] : [],
    }),
  );
  return [
    { kind: 'heading', text: spoken ? 'What the readings find besides' : 'What the readings find' },
    { kind: 'notes', notes },
  ];
}

function proposed({ proposal, picture, title }: CritiqueData): Block[] {
  if (!proposal) return [];
  return [
    { kind: 'heading', text: 'A proposal, to look at' },
    ...proposal.steps.map((text): Block => ({ kind: 'text', as: 'text', text })),
    {
      kind: 'pictures',
      figures: [
        { picture, alt: `${title}, as it was handed in`, caption: 'as it was handed in' },
        {
          picture: proposal.picture,
          alt: `${title}, with the proposed edit`,
          caption: 'with the proposed edit',
        },
      ],
    },
  ];
}
