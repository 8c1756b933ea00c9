import type { Strip } from './strip.ts';

/**
 * The process strip as SVG, complete in itself.
 *
 * @param title of the work
 * @param hrefs addresses of the small pictures, version by version; null leaves them and the ground out, for laying
 * the drawing over pictures
 */
export function stripSvg(strip: Strip, title: string, hrefs: readonly string[] | null): string {
  const { width, height, curve } = strip;
  const points = [];
  for (let i = 0; i < curve.length; i += 2) points.push(`${n(curve[i])},${n(curve[i + 1])}`);
  const images = hrefs
    ? strip.pictures.map(
        ({ x, y, width: w, height: h }, k) =>
          `<image x="${n(x)}" y="${n(y)}" width="${n(w)}" height="${n(h)}" preserveAspectRatio="none" href="${safe(hrefs[k])}"/>`,
      )
    : [];
  const labels = strip.pictures.map(
    ({ version, at: [x, y] }) =>
      `<circle cx="${n(x)}" cy="${n(y)}" r="9" fill="#777"/><text x="${n(x)}" y="${n(y + 4)}" text-anchor="middle">${version}</text>`,
  );
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" width="${width}" height="${height}" role="img" aria-label="${safe(title)}: ${strip.pictures.length} versions, to the right by effort, upwards by what changed from a distance">
${hrefs ? `<rect width="${width}" height="${height}" fill="#777"/>\n` : ''}${images.join('\n')}
<polyline points="${points.join(' ')}" fill="none" stroke="#d9d9d9" stroke-width="1.5"/>
<g font-family="sans-serif" font-size="12" fill="#fff">${labels.join('')}</g>
</svg>
`;
}

const n = (value: number): string => String(Number(value.toFixed(2)));

const safe = (text: string): string =>
  text.replace(/[&<>"]/g, (c) => ({ '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' })[c]!);
