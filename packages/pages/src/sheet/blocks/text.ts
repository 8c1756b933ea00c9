import { GREY, type TextSize } from '../../page/greys.ts';
import { type Chunk, hairline, linesOf, type Setting } from '../chunk.ts';

/** Longest line of running text: about sixty letters. */
const MEASURE: Readonly<Record<TextSize, number>> = { caption: 460, text: 450, note: 520, title: 620 };

/** The title with its quiet line. */
export function titleChunk(setting: Setting, title: string, under: string): Chunk {
  const { left, width } = setting;
  const head = linesOf(setting, title, 'title', Math.min(width, MEASURE.title), { weight: 'strong' });
  const line = linesOf(setting, under, 'caption', width, { fill: GREY.quiet });
  return {
    height: head.height + 4 + line.height,
    gap: 0,
    keep: true,
    at: (y) => [
      { tag: 'H1', items: head.at(left, y) },
      { tag: 'P', items: line.at(left, y + head.height + 4) },
    ],
  };
}

export function headingChunk(setting: Setting, text: string): Chunk {
  const head = linesOf(setting, text, 'note', setting.width, { weight: 'strong' });
  return {
    height: head.height,
    gap: 34,
    keep: true,
    at: (y) => [{ tag: 'H2', items: head.at(setting.left, y) }],
  };
}

export function textChunk(setting: Setting, text: string, as: 'note' | 'text' | 'caption'): Chunk {
  const fill = as === 'caption' ? GREY.quiet : GREY.ink;
  const lines = linesOf(setting, text, as, Math.min(setting.width, MEASURE[as]), { fill });
  return {
    height: lines.height,
    gap: as === 'note' ? 18 : 8,
    at: (y) => [{ tag: 'P', items: lines.at(setting.left, y) }],
  };
}

/** What stands at the very end, under a line. */
export function closingChunk(setting: Setting, sentences: readonly string[]): Chunk {
  const { left, width } = setting;
  const lines = linesOf(setting, sentences.join(' '), 'caption', Math.min(width, MEASURE.note), {
    fill: GREY.quiet,
  });
  return {
    height: lines.height + 12,
    gap: 34,
    at: (y) => [hairline(setting, y), { tag: 'P', items: lines.at(left, y + 12) }],
  };
}
