import { type CurvePoint, stripLayout } from '@halflight/engine';
import { GREY, SIZE } from '../page/greys.ts';
import type { Graphic, Item } from '../sheet/items.ts';
import type { ReportVersion } from '../types/report.ts';

/** Long side of a version on the strip, before the strip is set at the width of a page. */
const SIDE = 220;

/** The process strip: versions to the right by effort, upwards by what they changed from a distance. */
export function stripGraphic(points: readonly CurvePoint[], versions: readonly ReportVersion[]): Graphic {
  const sizes = versions.map(({ small }) => [small.width, small.height] as const);
  const { width, height, pictures, curve } = stripLayout(points, sizes, SIDE);
  let d = '';
  for (let i = 0; i < curve.length; i += 2) d += `${i === 0 ? 'M' : 'L'}${curve[i]} ${curve[i + 1]}`;
  const items: Item[] = pictures.map(({ x, y, width: w, height: h }, k) => ({
    kind: 'picture',
    picture: versions[k].small,
    x,
    y,
    width: w,
    height: h,
  }));
  items.push({ kind: 'path', d, stroke: GREY.edge, strokeWidth: 1.5 });
  for (const {
    version,
    at: [x, y],
  } of pictures)
    items.push(
      { kind: 'circle', cx: x, cy: y, r: 10, fill: GREY.paper, stroke: GREY.edge, strokeWidth: 1 },
      {
        kind: 'text',
        text: String(version),
        x,
        y: y + 4,
        anchor: 'middle',
        size: SIZE.caption,
        weight: 'regular',
        fill: GREY.ink,
      },
    );
  return { width, height, items };
}
