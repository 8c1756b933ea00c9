import { markItems, PIN } from '../../graphics/marks.ts';
import { GREY, SIZE } from '../../page/greys.ts';
import type { Note } from '../../page/page.ts';
import { type Chunk, hairline, type Lines, linesOf, type Setting } from '../chunk.ts';
import type { Item, Part } from '../items.ts';

const GAP = 32;
const INDENT = 34;
const PATCH = 18;
/** Where the words beside a patch begin. */
const BESIDE = 44;

/** Notes with their small print, places and colours in a margin to the right. */
export function noteChunks(setting: Setting, notes: readonly Note[]): Chunk[] {
  return notes.map((note) => noteChunk(setting, note));
}

function noteChunk(setting: Setting, note: Note): Chunk {
  const { left, width } = setting;
  const margin = Math.round(0.3 * width);
  const indent = note.label === undefined ? 0 : INDENT;
  const main = width - margin - GAP - indent;
  const lead = linesOf(setting, note.lead, 'text', main, { weight: 'strong' });
  const body = note.body.map((text) => linesOf(setting, text, 'text', main));
  const right = marginOf(setting, note, margin);
  const told = lead.height + body.reduce((sum, lines) => sum + lines.height + 4, 0);
  return {
    height: 14 + Math.max(told, right.height),
    gap: 16,
    at: (y) => {
      const top = y + 14;
      const parts: Part[] = [hairline(setting, y)];
      if (note.label !== undefined) parts.push({ tag: 'P', items: numbered(note.label, left, top) });
      parts.push({ tag: 'P', items: lead.at(left + indent, top) });
      let at = top + lead.height + 4;
      for (const lines of body) {
        parts.push({ tag: 'P', items: lines.at(left + indent, at) });
        at += lines.height + 4;
      }
      parts.push(...right.at(left + width - margin, top));
      return parts;
    },
  };
}

/** The number of a note, as it stands on the picture. */
function numbered(label: string, left: number, top: number): Item[] {
  const cx = left + PIN;
  const cy = top + 11;
  return [
    { kind: 'circle', cx, cy, r: PIN, fill: GREY.ink },
    {
      kind: 'text',
      text: label,
      x: cx,
      y: cy + 4.2,
      anchor: 'middle',
      size: SIZE.caption,
      weight: 'strong',
      fill: GREY.paper,
    },
  ];
}

function marginOf(
  setting: Setting,
  { margin, place, swatches = [] }: Note,
  width: number,
): { height: number; at(x: number, y: number): Part[] } {
  const lines = margin.map((text): Lines => linesOf(setting, text, 'caption', width, { fill: GREY.quiet }));
  const picture = place?.picture;
  const scale = picture ? Math.min(width / picture.width, 150 / picture.height) : 0;
  const [w, h] = picture ? [picture.width * scale, picture.height * scale] : [0, 0];
  const under = picture ? h + 10 : 0;
  const patches = swatches.map(({ label, hex }) => ({
    hex,
    words: linesOf(setting, `${label}  ${hex}`, 'caption', width - BESIDE, { fill: GREY.quiet }),
  }));
  const tall = ({ words }: { words: Lines }): number => Math.max(PATCH, words.height) + 4;
  return {
    height:
      under +
      patches.reduce((sum, patch) => sum + tall(patch), 0) +
      lines.reduce((sum, { height }) => sum + height, 0),
    at: (x, y) => {
      const parts: Part[] = [];
      if (place)
        parts.push({
          tag: 'Figure',
          alt: place.alt,
          items: [
            { kind: 'picture', picture: place.picture, x, y, width: w, height: h },
            ...markItems(place.marks ?? [], x, y, w, h),
          ],
        });
      let at = y + under;
      for (const patch of patches) {
        const square: Item = { kind: 'rect', x, y: at, width: 36, height: PATCH, fill: patch.hex };
        parts.push({ tag: 'P', items: [square, ...patch.words.at(x + BESIDE, at)] });
        at += tall(patch);
      }
      for (const line of lines) {
        parts.push({ tag: 'P', items: line.at(x, at) });
        at += line.height;
      }
      return parts;
    },
  };
}
