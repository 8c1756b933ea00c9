import { type CurvePoint, cssHex, listOf, sentence } from '@halflight/engine';
import { fromDrawing } from '../graphics/fromDrawing.ts';
import { stripGraphic } from '../graphics/strip.ts';
import type { Block, GraphicFigure, Mark, Note, Page, PictureFigure } from '../page/page.ts';
import { ADVICE, dayOf, ended } from '../page/words.ts';
import { stageCards } from '../process/editStrip.ts';
import type { ReportData, ReportFinding, ReportKind, ReportReading } from '../types/report.ts';
import { answerSentence, lookSaid, lookSentence } from './words.ts';

/** Places that are outlined on a picture: more would hide it. */
const MOST_PLACES = 12;

/** What a report of this kind says. */
export function reportPage(data: ReportData, kind: ReportKind): Page {
  return {
    title: data.title,
    under: underOf(data, kind),
    ...(data.author && { author: data.author }),
    blocks: BLOCKS[kind](data),
    closing: kind === 'client' ? [] : [ADVICE],
  };
}

function underOf({ author, made, picture }: ReportData, kind: ReportKind): string {
  const { width, height, depth, profile } = picture;
  const file = kind === 'own' ? [`${picture.name}, ${width} × ${height}, ${depth} bit, ${profile}`] : [];
  return [...(author ? [author] : []), dayOf(made), ...file].join(' · ');
}

const BLOCKS: Readonly<Record<ReportKind, (data: ReportData) => Block[]>> = {
  own: (data) => [
    ...pictures(data),
    ...intent(data),
    ...findings(data),
    ...fine(data),
    ...edit(data),
    ...drawings(data),
    ...palette(data),
    ...process(data, true),
    ...looks(data),
    ...numbers(data),
  ],
  student: (data) => [
    { kind: 'pictures', figures: [nowFigure(data, numberedMarks(data))] },
    ...strengths(data),
    ...toDo(data),
  ],
  client: (data) => [...pictures(data), ...feeling(data), ...process(data, false), ...stages(data)],
};

function nowFigure(data: ReportData, marks: readonly Mark[] = []): PictureFigure {
  return {
    picture: data.now,
    alt: `${data.title}, the picture as it is now`,
    ...(data.before && { caption: 'as it is now' }),
    marks,
  };
}

function pictures(data: ReportData): Block[] {
  const now = nowFigure(data);
  const { before } = data;
  if (!before) return [{ kind: 'pictures', figures: [now] }];
  const first = { picture: before.picture, alt: `${data.title}, ${before.label}`, caption: before.label };
  return [{ kind: 'pictures', figures: [first, now] }];
}

function intent({ intent, undecided }: ReportData): Block[] {
  const open = undecided.length > 0 ? `Left open: ${listOf(undecided)}.` : null;
  if (intent.length === 0) return open ? [{ kind: 'text', as: 'caption', text: open }] : [];
  return [
    { kind: 'heading', text: 'What was decided' },
    ...intent.map((text): Block => ({ kind: 'text', as: 'text', text })),
    ...(open ? [{ kind: 'text', as: 'caption', text: open } as const] : []),
  ];
}

function feeling({ intent }: ReportData): Block[] {
  const [feel] = intent.filter((text) => text.startsWith('Who sees it'));
  return feel ? [{ kind: 'text', as: 'note', text: feel }] : [];
}

function findings(data: ReportData): Block[] {
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
function numberedMarks(data: ReportData): Mark[] {
  return openOnes(data).flatMap((finding, k) =>
    outlines(finding)
      .slice(0, 3)
      .map((mark, i) => ({ ...mark, ...(i === 0 && { label: String(k + 1) }) })),
  );
}

const openOnes = ({ findings }: ReportData): ReportFinding[] => findings.filter((f) => !isSettled(f));

function fine({ fine, untold }: ReportData): Block[] {
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

function strengths({ fine }: ReportData): Block[] {
  if (fine.length === 0) return [];
  return [
    { kind: 'heading', text: 'What already works' },
    ...fine.map((text): Block => ({ kind: 'text', as: 'text', text })),
  ];
}

function toDo(data: ReportData): Block[] {
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

function edit({ title, steps, stages = [] }: ReportData): Block[] {
  if (steps.length === 0) return [];
  const notes = steps.map(({ sentence: lead, reason }, k): Note => {
    const picture = stages[k + 1];
    return {
      lead,
      body: reason ? [reason] : [],
      margin: [],
      ...(picture && { place: { picture, alt: `${title} after step ${k + 1}` } }),
    };
  });
  return [
    { kind: 'heading', text: 'The edit' },
    { kind: 'notes', notes },
  ];
}

/** The edit as small pictures, without its numbers and reasons. */
function stages({ title, steps, stages }: ReportData): Block[] {
  if (!stages || stages.length < 2) return [];
  return [
    { kind: 'heading', text: 'The edit, step by step' },
    stageCards(
      title,
      stages,
      steps.map(({ title }) => ({ title })),
    ),
  ];
}

function drawings({ readings }: ReportData): Block[] {
  if (readings.length === 0) return [];
  const figure = ({ title, drawing, maps }: ReportReading): GraphicFigure => ({
    title,
    graphic: fromDrawing(drawing, maps),
    caption: drawing.sentence,
    alt: drawing.sentence,
  });
  return [
    { kind: 'heading', text: 'What the readings see' },
    { kind: 'graphics', across: 2, figures: readings.map(figure) },
  ];
}

function palette({ palette }: ReportData): Block[] {
  if (palette.length === 0) return [];
  return [
    { kind: 'heading', text: 'The colours that carry it' },
    { kind: 'swatches', colours: palette },
  ];
}

/** The place of a version on the strip, in numbers. */
const curveRow = ({ version, effort, impact }: CurvePoint): [string, string] => [
  `version ${version}: work, and change seen from a distance`,
  `${effort.toFixed(1)}, ${impact.toFixed(1)}\u00a0ΔE`,
];

/** @param judged whether it is told what the last versions still changed: that is for the artist alone */
function process({ process, title }: ReportData, judged: boolean): Block[] {
  if (!process || process.versions.length < 2) return [];
  const { points, versions, sentence: told } = process;
  const { graphic, rows } = stripGraphic(points, versions);
  const follows = rows > 1 ? ' Each row goes on where the one above ends.' : '';
  return [
    { kind: 'heading', text: 'How it came to be' },
    {
      kind: 'graphics',
      across: 1,
      figures: [
        {
          graphic,
          caption: `To the right: work done. Upwards: what it changed from a distance.${follows}`,
          alt: `${title} in ${versions.length} versions, to the right by effort, upwards by what changed from a distance`,
        },
      ],
    },
    ...(judged ? [{ kind: 'table', rows: points.map(curveRow) } as const] : []),
    ...(judged && told ? [{ kind: 'text', as: 'text', text: told } as const] : []),
  ];
}

function looks({ looks, small, title }: ReportData): Block[] {
  if (looks.length === 0) return [];
  const notes = looks.map((look): Note => {
    const marks: Mark[] = look.first ? [{ kind: 'pin', points: look.first }] : [];
    return {
      lead: lookSentence(look),
      body: lookSaid(look),
      margin: look.first ? ['Where the eye went first.'] : [],
      ...(marks.length > 0 && {
        place: { picture: small, alt: `${title}, with the place where the eye went first`, marks },
      }),
    };
  });
  return [
    { kind: 'heading', text: 'Quiet looks' },
    { kind: 'notes', notes },
  ];
}

function numbers({ readings }: ReportData): Block[] {
  const rows = readings.flatMap(({ measures }) =>
    measures.flatMap(({ label, unit, digits, value }): [string, string][] =>
      value === null
        ? []
        : [[label, `${value.toFixed(digits).replace('-', '−')}${unit ? `\u00a0${unit}` : ''}`]],
    ),
  );
  // Mood looks again at what other readings measure.
  const once = [...new Map(rows.map((row) => [row.join(), row])).values()];
  if (rows.length === 0) return [];
  return [
    { kind: 'heading', text: 'The numbers' },
    { kind: 'table', rows: once },
  ];
}
