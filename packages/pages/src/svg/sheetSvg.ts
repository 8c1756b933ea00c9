import { escapeMarkup } from '../escapeMarkup.ts';
import { dataAddress } from '../html/base64.ts';
import type { Sheet } from '../sheet/items.ts';
import type { Typeface } from '../sheet/typeface.ts';
import { type SvgWay, svgItems } from './items.ts';

/**
 * The first page of a sheet as one SVG file, complete in itself.
 *
 * @param outlines draws letters as outlines, so that it looks alike without the typeface; null leaves them as text
 * @param scale pixels per unit that the file asks for
 */
export function sheetSvg(sheet: Sheet, outlines: Typeface | null, scale = 1): string {
  const { width, height, ground, title, language } = sheet;
  const way: SvgWay = {
    outlines,
    picture: ({ bytes, mediaType }, box) =>
      `<image ${box} preserveAspectRatio="none" href="${dataAddress(bytes, mediaType)}"/>`,
  };
  const parts = sheet.pages[0].parts.map(({ items, alt, tag }) => {
    const drawn = svgItems(items, way);
    return tag === 'Figure' && alt ? `<g role="img" aria-label="${escapeMarkup(alt)}">${drawn}</g>` : drawn;
  });
  const face = outlines ? '' : ' font-family="Source Sans 3, system-ui, sans-serif"';
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" width="${Math.round(scale * width)}" height="${Math.round(scale * height)}" xml:lang="${language}"${face}>
<title>${escapeMarkup(title)}</title>
<rect width="${width}" height="${height}" fill="${ground}"/>
${parts.join('\n')}
</svg>
`;
}
