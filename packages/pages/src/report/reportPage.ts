import { type CurvePoint, listOf, unitAfter } from '@halflight/engine';
import { fromDrawing } from '../graphics/fromDrawing.ts';
import { stripGraphic } from '../graphics/strip.ts';
import type { Block, GraphicFigure, Mark, Note, Page, PictureFigure } from '../page/page.ts';
import { ADVICE, dayOf } from '../page/words.ts';
import { stageCards } from '../process/editStrip.ts';
import type { ReportData, ReportKind, ReportReading } from '../types/report.ts';
import { findings, fine, numberedMarks, strengths, toDo } from './findingBlocks.ts';
import { lookSaid, lookSentence } from './words.ts';

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
      value === null ? [] : [[label, `${value.toFixed(digits).replace('-', '−')}${unitAfter(unit)}`]],
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
