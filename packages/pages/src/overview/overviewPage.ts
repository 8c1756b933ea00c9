import { countWord, listOf, sentence } from '@halflight/engine';
import type { Block, Card, Note, Page } from '../page/page.ts';
import { ADVICE, dayOf } from '../page/words.ts';
import type { ClassOverviewData } from '../types/overview.ts';
import { shownName } from './names.ts';
import { planeGraphic } from './plane.ts';

const CONSENT =
  'This page shows the works of others: pass it on only if they agree. It was made on one machine and sent nowhere.';

/** A page for a whole class: what many share first, then every work once, in the given order. */
export function overviewPage(data: ClassOverviewData): Page {
  const { title, assignment, made, works } = data;
  const count = `${works.length} ${works.length === 1 ? 'work' : 'works'}`;
  return {
    title,
    under: [...(assignment ? [assignment] : []), count, dayOf(made)].join(' · '),
    blocks: [
      ...common(data),
      ...plane(data),
      { kind: 'heading', text: 'The works' },
      { kind: 'cards', cards: works.map((_, k) => cardOf(data, k)) },
      ...unread(data),
    ],
    closing: ['No work is ranked or given a mark.', ADVICE, CONSENT],
  };
}

function common({ common, works, names }: ClassOverviewData): Block[] {
  if (common.length === 0) return [];
  const notes = common.map(({ text, todo, works: which }): Note => {
    const who = which.slice(0, 8).map((k) => shownName(works[k].who, k, names));
    const more = which.length > who.length ? [`${which.length - who.length} more`] : [];
    return {
      lead: text,
      body: todo ? [todo] : [],
      margin: [
        `${sentence(countWord(which.length))} of ${countWord(works.length)} works.`,
        `${listOf([...who, ...more])}${/\.$/.test(who.at(-1) ?? '') && more.length === 0 ? '' : '.'}`,
      ],
    };
  });
  return [
    { kind: 'heading', text: 'What several share' },
    { kind: 'notes', notes },
  ];
}

function plane({ plane, works }: ClassOverviewData): Block[] {
  if (!plane) return [];
  const { across, up } = plane;
  return [
    { kind: 'heading', text: `${sentence(across.label)}, against ${up.label}` },
    {
      kind: 'graphics',
      across: 1,
      figures: [
        {
          graphic: planeGraphic(plane, works),
          alt: `Every work at its place: to the right ${across.ends[1]}, upwards ${up.ends[1]}`,
        },
      ],
    },
  ];
}

function cardOf({ works, names }: ClassOverviewData, k: number): Card {
  const { who, title, small, strong, first, page } = works[k];
  const name = shownName(who, k, names);
  return {
    picture: small,
    alt: `The work of ${name}`,
    title: name,
    lines: [
      ...(title && names === 'shown' ? [title] : []),
      ...(strong ? [strong] : []),
      ...(first ? [`Next: ${first}`] : []),
    ],
    ...(page && { href: page }),
  };
}

function unread({ unread }: ClassOverviewData): Block[] {
  if (unread.length === 0) return [];
  return [
    { kind: 'heading', text: 'What could not be read' },
    ...unread.map((text): Block => ({ kind: 'text', as: 'caption', text })),
  ];
}
