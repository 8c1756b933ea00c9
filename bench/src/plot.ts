/** One line of a plot. */
export interface Course {
  readonly name: string;
  readonly points: readonly (readonly [x: number, y: number])[];
}

const WIDE = 560;
const HIGH = 320;
const LEFT = 56;
const RIGHT = 130;
const TOP = 40;
const BOTTOM = 44;

/** Lines over one axis as SVG, both axes logarithmic: growth in proportion is a slope of one, drawn dotted. */
export function plot(title: string, across: string, courses: readonly Course[]): string {
  const all = courses.flatMap(({ points }) => points);
  const xs = all.map(([x]) => Math.log10(x));
  const ys = all.map(([, y]) => Math.log10(y));
  const [x0, x1] = [Math.min(...xs), Math.max(...xs)];
  const [y0, y1] = [Math.floor(Math.min(...ys)), Math.ceil(Math.max(...ys))];
  const x = (value: number): number => LEFT + ((Math.log10(value) - x0) / (x1 - x0)) * (WIDE - LEFT - RIGHT);
  const y = (value: number): number =>
    HIGH - BOTTOM - ((Math.log10(value) - y0) / (y1 - y0)) * (HIGH - TOP - BOTTOM);
  const decades = Array.from({ length: y1 - y0 + 1 }, (_, k) => 10 ** (y0 + k));
  const ticks = [...new Set(all.map(([at]) => at))];
  const dashes = ['', '6 3', '2 3', '8 3 2 3'];
  const proportional = (from: readonly [number, number], to: number): string =>
    `M${round(x(from[0]))} ${round(y(from[1]))}L${round(x(to))} ${round(y((from[1] * to) / from[0]))}`;
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDE} ${HIGH}" width="${WIDE}" height="${HIGH}" role="img" font-family="sans-serif" font-size="12">
<title>${title}</title>
<rect width="${WIDE}" height="${HIGH}" fill="#f4f4f4"/>
<text x="${LEFT}" y="22" font-size="14" fill="#222">${title}</text>
<g stroke="#ccc">${decades.map((d) => `<path d="M${LEFT} ${round(y(d))}H${WIDE - RIGHT}"/>`).join('')}</g>
<g fill="#555" text-anchor="end">${decades.map((d) => `<text x="${LEFT - 8}" y="${round(y(d) + 4)}">${d}</text>`).join('')}</g>
<g fill="#555" text-anchor="middle">${ticks.map((t) => `<text x="${round(x(t))}" y="${HIGH - BOTTOM + 18}">${t}</text>`).join('')}<text x="${(LEFT + WIDE - RIGHT) / 2}" y="${HIGH - 8}">${across}</text></g>
<g fill="none" stroke="#222" stroke-width="1.5">${courses
    .map(({ points }, k) => {
      const line = points.map(([a, b]) => `${round(x(a))} ${round(y(b))}`).join('L');
      return `<path d="M${line}"${dashes[k] ? ` stroke-dasharray="${dashes[k]}"` : ''}/>`;
    })
    .join('')}</g>
<g fill="#222">${names(courses.map(({ name, points }) => [name, y(points.at(-1)![1])]))
    .map(([name, at]) => `<text x="${WIDE - RIGHT + 8}" y="${round(at + 4)}">${name}</text>`)
    .join('')}</g>
<path d="${proportional(courses[0].points[1], 10 ** x1)}" fill="none" stroke="#999" stroke-dasharray="1 4"/>
</svg>
`;
}

const round = (value: number): number => Math.round(value * 10) / 10;

/** Heights of the names beside the ends of their lines, moved apart where they would overlap. */
function names(ends: readonly (readonly [name: string, y: number])[]): (readonly [string, number])[] {
  let above = Number.NEGATIVE_INFINITY;
  return [...ends]
    .sort(([, a], [, b]) => a - b)
    .map(([name, y]) => {
      above = Math.max(y, above + 16);
      return [name, above] as const;
    });
}
