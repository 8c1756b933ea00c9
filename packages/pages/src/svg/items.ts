import { escapeMarkup } from '../escapeMarkup.ts';
import type { Item, Painted } from '../sheet/items.ts';
import type { Typeface } from '../sheet/typeface.ts';
import type { PagePicture } from '../types/picture.ts';

/** How pictures and letters get into an SVG. */
export interface SvgWay {
  picture(picture: PagePicture, box: string): string;
  /** Letters as outlines; as text that can be selected when null. */
  readonly outlines: Typeface | null;
}

/** Items of a display list as SVG elements. */
export function svgItems(items: readonly Item[], way: SvgWay): string {
  return items.map((item) => svgItem(item, way)).join('');
}

function svgItem(item: Item, way: SvgWay): string {
  switch (item.kind) {
    case 'text':
      return textItem(item, way);
    case 'picture': {
      const { x, y, width, height } = item;
      return way.picture(item.picture, `x="${n(x)}" y="${n(y)}" width="${n(width)}" height="${n(height)}"`);
    }
    case 'rect': {
      const { x, y, width, height } = item;
      return `<rect x="${n(x)}" y="${n(y)}" width="${n(width)}" height="${n(height)}"${painted(item)}/>`;
    }
    case 'circle':
      return `<circle cx="${n(item.cx)}" cy="${n(item.cy)}" r="${n(item.r)}"${painted(item)}/>`;
    case 'path':
      return `<path d="${escapeMarkup(item.d)}"${painted(item)}/>`;
    case 'group':
      return `<g transform="translate(${n(item.x)} ${n(item.y)}) scale(${n(item.scale)})">${svgItems(item.items, way)}</g>`;
  }
}

function textItem(item: Extract<Item, { kind: 'text' }>, { outlines }: SvgWay): string {
  const { text, x, y, anchor, size, weight, fill } = item;
  if (outlines) {
    const width = outlines.width(text, weight, size);
    const from = anchor === 'start' ? x : anchor === 'end' ? x - width : x - width / 2;
    return `<path d="${outlines.outline(text, weight, size, from, y)}" fill="${safe(fill)}"/>`;
  }
  const bold = weight === 'strong' ? ' font-weight="600"' : '';
  const at = anchor === 'start' ? '' : ` text-anchor="${anchor}"`;
  return `<text x="${n(x)}" y="${n(y)}" font-size="${n(size)}"${bold}${at} fill="${safe(fill)}">${escapeMarkup(text)}</text>`;
}

function painted({ fill, stroke, strokeWidth, dash }: Painted): string {
  const line = stroke
    ? ` stroke="${safe(stroke)}" stroke-width="${n(strokeWidth ?? 1)}"${dash ? ` stroke-dasharray="${dash.map(n).join(' ')}"` : ''}`
    : '';
  return ` fill="${fill ? safe(fill) : 'none'}"${line}`;
}

const safe = escapeMarkup;
const n = (value: number): string => String(Number(value.toFixed(3)));
