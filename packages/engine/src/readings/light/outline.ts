/**
 * Outer outline of the pixels with mark `id`, as a closed polygon along pixel edges, simplified to `tolerance`
 * pixels (Ramer 1972, Douglas & Peucker 1973). Starts at the first marked pixel in reading order and runs with
 * the marked pixels on the right. x and y in turn, in pixels; holes are left out.
 */
export function outlineOf(
  mark: Int32Array,
  width: number,
  height: number,
  id: number,
  tolerance: number,
): number[] {
  const start = mark.indexOf(id);
  if (start < 0) return [];
  const inside = (x: number, y: number) =>
    x >= 0 && y >= 0 && x < width && y < height && mark[y * width + x] === id;
  const sx = start % width;
  const sy = Math.floor(start / width);
  // Directions: 0 right, 1 down, 2 left, 3 up. At a corner (x, y) the four pixels around it decide the turn.
  const dx = [1, 0, -1, 0];
  const dy = [0, 1, 0, -1];
  const ahead = (x: number, y: number, d: number, right: boolean) => {
    // Pixel ahead of the corner, on the right or left hand of the direction.
    const hand = right ? (d + 1) % 4 : (d + 3) % 4;
    const ax = x + (dx[d] + dx[hand] - 1) / 2;
    const ay = y + (dy[d] + dy[hand] - 1) / 2;
    return inside(ax, ay);
  };
  const points: number[] = [];
  let x = sx;
  let y = sy;
  let d = 0;
  do {
    points.push(x, y);
    do {
      x += dx[d];
      y += dy[d];
    } while (!ahead(x, y, d, false) && ahead(x, y, d, true) && !(x === sx && y === sy));
    if (ahead(x, y, d, false)) d = (d + 3) % 4;
    else if (!ahead(x, y, d, true)) d = (d + 1) % 4;
  } while (!(x === sx && y === sy && d === 0) && points.length < 8 * mark.length);
  return simplify(points, tolerance);
}

function simplify(points: number[], tolerance: number): number[] {
  const n = points.length / 2;
  if (n <= 4) return points;
  const keep = new Uint8Array(n + 1);
  // Split the ring at the corner farthest from the start; each half is an open line.
  let far = 0;
  let most = -1;
  for (let i = 0; i < n; i++) {
    const d = (points[2 * i] - points[0]) ** 2 + (points[2 * i + 1] - points[1]) ** 2;
    if (d > most) {
      most = d;
      far = i;
    }
  }
  keep[0] = keep[far] = keep[n] = 1;
  const stack: [number, number][] = [
    [0, far],
    [far, n],
  ];
  while (stack.length > 0) {
    const [a, b] = stack.pop()!;
    const ax = points[2 * a];
    const ay = points[2 * a + 1];
    const ex = points[2 * (b % n)] - ax;
    const ey = points[2 * (b % n) + 1] - ay;
    const length = Math.hypot(ex, ey) || 1;
    let split = -1;
    let off = tolerance;
    for (let i = a + 1; i < b; i++) {
      const v = Math.abs((points[2 * i] - ax) * ey - (points[2 * i + 1] - ay) * ex) / length;
      if (v > off) {
        off = v;
        split = i;
      }
    }
    if (split >= 0) {
      keep[split] = 1;
      stack.push([a, split], [split, b]);
    }
  }
  const out: number[] = [];
  for (let i = 0; i < n; i++) if (keep[i]) out.push(points[2 * i], points[2 * i + 1]);
  return out;
}
