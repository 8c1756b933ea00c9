import { GREY } from '../page/greys.ts';
import type { Block, Card, Page } from '../page/page.ts';
import type { Paper } from '../sheet/paper.ts';
import type { PagePicture } from '../types/picture.ts';
import type { ReportStep } from '../types/report.ts';

/** Pictures in a row: more would be too small, fewer too large. */
const MOST_ACROSS = 5;
const FEWEST_ACROSS = 3;

/** A step of a strip. */
type StageStep = Pick<ReportStep, 'title' | 'reason'>;

/** The picture as painted and after each step, with what the step is, in rows that are even. */
export function stageCards(
  title: string,
  stages: readonly PagePicture[],
  steps: readonly StageStep[],
): Extract<Block, { kind: 'cards' }> {
  const cards = stages.map((picture, k): Card => {
    const step = steps[k - 1];
    return step
      ? {
          picture,
          alt: `${title} after step ${k}: ${step.title}`,
          title: `${k}. ${step.title}`,
          lines: step.reason ? [step.reason] : [],
        }
      : { picture, alt: `${title} as painted`, title: 'As painted', lines: [] };
  });
  const rows = Math.ceil(cards.length / MOST_ACROSS);
  return { kind: 'cards', cards, across: Math.max(FEWEST_ACROSS, Math.ceil(cards.length / rows)) };
}

/** An edit as a strip: the picture as painted, then after each step. */
export function editStripPage(
  title: string,
  stages: readonly PagePicture[],
  steps: readonly StageStep[],
): Page {
  return {
    title,
    under: 'The edit, step by step',
    blocks: [stageCards(title, stages, steps)],
    closing: [],
  };
}

/** How wide a picture of a strip stands, in units of 1/96 inch. */
const CELL = 300;
const GAP = 20;
const MARGIN = 32;

/** Paper for an edit as a strip, which has a row or more. */
export function stripPaper({ blocks }: Page): Paper {
  const across = Math.max(1, ...blocks.map((block) => (block.kind === 'cards' ? (block.across ?? 1) : 1)));
  return {
    width: 2 * MARGIN + across * CELL + (across - 1) * GAP,
    height: null,
    margin: MARGIN,
    ground: GREY.ground,
    tallest: CELL,
    cards: across,
    wide: true,
  };
}
