import { escapeMarkup as text } from '../escapeMarkup.ts';
import { markPath, pinPlace } from '../graphics/marks.ts';
import type { Mark, PictureFigure } from '../page/page.ts';
import { dataAddress } from './base64.ts';

/** Narrower than this, two pictures stand side by side. */
const UPRIGHT = 1.15;

/** One or two pictures on the wall, with what is drawn on them. */
export function picturesHtml(figures: readonly PictureFigure[]): string {
  const beside = figures.length === 2 && figures.every(({ picture: p }) => p.width / p.height < UPRIGHT);
  const kind = figures.length === 1 ? ' alone' : beside ? ' beside' : '';
  const caption = captionOf(figures, beside);
  return `<figure>
<div class="wall bleed${kind}">
${figures.map(frameHtml).join('\n')}
</div>${caption ? `\n<figcaption class="under-wall">${text(caption)}</figcaption>` : ''}
</figure>`;
}

function frameHtml({ picture, alt, marks = [] }: PictureFigure): string {
  const { width, height, bytes, mediaType } = picture;
  const image = `<img src="${dataAddress(bytes, mediaType)}" width="${width}" height="${height}" alt="${text(alt)}">`;
  return `<span class="frame">${image}${linesHtml(marks)}${marks.map(pinHtml).join('')}</span>`;
}

/** Lines keep their width at every size of the picture. */
function linesHtml(marks: readonly Mark[]): string {
  const lines = marks.filter(({ kind, points }) => kind !== 'pin' && points.length >= 4);
  if (lines.length === 0) return '';
  const drawn = lines.map((mark) => {
    const d = markPath(mark, 1000, 1000);
    const line = (stroke: string, width: number): string =>
      `<path d="${d}" fill="none" stroke="${stroke}" stroke-width="${width}" vector-effect="non-scaling-stroke"/>`;
    return line('#ffffff', 3.5) + line('#111111', 1.5);
  });
  return `<svg viewBox="0 0 1000 1000" preserveAspectRatio="none" aria-hidden="true">${drawn.join('')}</svg>`;
}

/** Numbers keep their size at every size of the picture. */
function pinHtml({ kind, points, label = '' }: Mark): string {
  if (kind !== 'pin' && label === '') return '';
  const [x, y] = pinPlace(points).map((share) => (100 * Math.min(0.985, Math.max(0.015, share))).toFixed(2));
  return `<span class="pin${label === '' ? ' ring' : ''}" style="left:${x}%;top:${y}%">${text(label)}</span>`;
}

function captionOf([first, second]: readonly PictureFigure[], beside: boolean): string {
  if (!second) return first.caption ?? '';
  const [here, there] = beside ? ['Left', 'right'] : ['Above', 'below'];
  return `${here}: ${first.caption ?? ''}; ${there}: ${second.caption ?? ''}.`;
}
