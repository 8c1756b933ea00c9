import { type CurvePoint, type Strip, type StripPicture, stripLayout } from '@halflight/engine';
import { GREY, SIZE } from '../page/greys.ts';
import type { Graphic, Item } from '../sheet/items.ts';
import type { ReportVersion } from '../types/report.ts';

/** About the width of a page, so that numbers below pictures keep the size of other small print. */
const ACROSS = 680;
/** Long side of a version: as large as one row holds, at most; at least, or there are more rows. */
const LARGEST = 220;
const SMALLEST = 108;
const MOST_ROWS = 8;
/** Room between two rows, and around all. */
const GAP = 20;
const EDGE = 4;
/** Radius of a number's disc. */
const DISC = 10;

/** The process strip: versions to the right by effort, upwards by what they changed from a distance. */
export function stripGraphic(
  points: readonly CurvePoint[],
  versions: readonly ReportVersion[],
): { readonly graphic: Graphic; readonly rows: number } {
  const sizes = versions.map(({ small }) => [small.width, small.height] as const);
  const layout = fittingLayout(points, sizes);
  const rows = rowsOf(layout);
  const items: Item[] = [];
  let y = EDGE;
  let width = 0;
  let next = 0;
  for (const row of rows) {
    const left = row[0].x - EDGE;
    const top = Math.min(...row.map((picture) => picture.y));
    const bottom = Math.max(...row.map(({ at }) => at[1])) + DISC;
    items.push(...rowItems(row, versions.slice(next, next + row.length), left, top - y));
    next += row.length;
    width = Math.max(width, row.at(-1)!.x + row.at(-1)!.width - left + EDGE);
    y += bottom - top + GAP;
  }
  return { graphic: { width, height: y - GAP + EDGE, items }, rows: rows.length };
}

/** The largest layout whose rows fit the page, in as few rows as leave the pictures large enough. */
function fittingLayout(points: readonly CurvePoint[], sizes: readonly (readonly [number, number])[]): Strip {
  const widthAt = (side: number): number => stripLayout(points, sizes, side).width;
  const [near, far] = [widthAt(SMALLEST), widthAt(LARGEST)];
  const each = (far - near) / (LARGEST - SMALLEST);
  for (let rows = 1; rows <= MOST_ROWS; rows++) {
    // Rows end before they are full: half a picture is left free in each.
    const room = rows === 1 ? ACROSS : rows * (ACROSS - SMALLEST / 2);
    const side = SMALLEST + (room - near) / each;
    if (side >= SMALLEST) return stripLayout(points, sizes, Math.min(LARGEST, Math.floor(side)));
  }
  return stripLayout(points, sizes, SMALLEST);
}

function rowsOf({ pictures }: Strip): StripPicture[][] {
  const rows: StripPicture[][] = [];
  for (const picture of pictures) {
    const row = rows.at(-1);
    if (row && picture.x + picture.width - row[0].x <= ACROSS) row.push(picture);
    else rows.push([picture]);
  }
  return rows;
}

function rowItems(
  row: readonly StripPicture[],
  versions: readonly ReportVersion[],
  left: number,
  up: number,
): Item[] {
  const line = row.flatMap(({ x, width, at: [, y] }) => [
    `${x - left} ${y - up}`,
    `${x + width - left} ${y - up}`,
  ]);
  return [
    ...row.map(
      ({ x, y, width, height }, k): Item => ({
        kind: 'picture',
        picture: versions[k].small,
        x: x - left,
        y: y - up,
        width,
        height,
      }),
    ),
    { kind: 'path', d: `M${line.join('L')}`, stroke: GREY.edge, strokeWidth: 1.5 },
    ...row.flatMap(({ version, at: [x, y] }): Item[] => [
      {
        kind: 'circle',
        cx: x - left,
        cy: y - up,
        r: DISC,
        fill: GREY.paper,
        stroke: GREY.edge,
        strokeWidth: 1,
      },
      {
        kind: 'text',
        text: String(version),
        x: x - left,
        y: y - up + 4,
        anchor: 'middle',
        size: SIZE.caption,
        weight: 'regular',
        fill: GREY.ink,
      },
    ]),
  ];
}
