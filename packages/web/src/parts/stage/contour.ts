/** A map of shares, 0 to 255. */
interface Map {
  readonly width: number;
  readonly height: number;
  readonly data: ArrayLike<number>;
}

/** Share of the long side over which a map is smoothed first: speckles have no rim worth a line. */
const SMOOTH = 1 / 80;
const LEVEL = 127.5;

/**
 * The line between what a map says and what it doesn't, at half of its range, as an SVG path over `width` ×
 * `height`. Marching squares with linear interpolation (Lorensen & Cline 1987 in the plane).
 */
export function contour(map: Map, width: number, height: number): string {
  const { field, columns, rows } = reduced(map);
  const x = (i: number): string => (((i + 0.5) * width) / columns).toFixed(1);
  const y = (j: number): string => (((j + 0.5) * height) / rows).toFixed(1);
  let path = '';
  for (let j = 0; j + 1 < rows; j++)
    for (let i = 0; i + 1 < columns; i++) {
      const at = j * columns + i;
      const [a, b, c, d] = [field[at], field[at + 1], field[at + columns + 1], field[at + columns]];
      const crossings: string[] = [];
      const cross = (from: number, to: number, point: (t: number) => string): void => {
        if (from > LEVEL !== to > LEVEL) crossings.push(point((LEVEL - from) / (to - from)));
      };
      cross(a, b, (t) => `${x(i + t)} ${y(j)}`);
      cross(b, c, (t) => `${x(i + 1)} ${y(j + t)}`);
      cross(d, c, (t) => `${x(i + t)} ${y(j + 1)}`);
      cross(a, d, (t) => `${x(i)} ${y(j + t)}`);
      for (let k = 0; k + 1 < crossings.length; k += 2) path += `M${crossings[k]}L${crossings[k + 1]}`;
    }
  return path;
}

/** The map in square means as wide as what is smoothed away. */
function reduced({ width, height, data }: Map): { field: Float64Array; columns: number; rows: number } {
  const step = Math.max(1, Math.round(Math.max(width, height) * SMOOTH));
  const columns = Math.ceil(width / step);
  const rows = Math.ceil(height / step);
  const field = new Float64Array(columns * rows);
  const counts = new Float64Array(columns * rows);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const at = Math.floor(y / step) * columns + Math.floor(x / step);
      field[at] += data[y * width + x];
      counts[at]++;
    }
  for (let at = 0; at < field.length; at++) field[at] /= counts[at];
  return { field, columns, rows };
}
