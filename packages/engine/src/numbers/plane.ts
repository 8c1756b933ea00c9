/** One number per place, row-major, `width × height`. */
export interface Plane {
  readonly width: number;
  readonly height: number;
  readonly data: Float32Array;
}

/** A plane filled place by place. */
export function planeOf(width: number, height: number, at: (p: number) => number): Plane {
  const data = new Float32Array(width * height);
  for (let p = 0; p < data.length; p++) data[p] = at(p);
  return { width, height, data };
}

/** Value between places by bilinear reading; `x` and `y` in places, held at the borders. */
export function readAt({ width, height, data }: Plane, x: number, y: number): number {
  const u = Math.min(width - 1, Math.max(0, x));
  const v = Math.min(height - 1, Math.max(0, y));
  const x0 = Math.floor(u);
  const y0 = Math.floor(v);
  const x1 = Math.min(width - 1, x0 + 1);
  const y1 = Math.min(height - 1, y0 + 1);
  const top = data[y0 * width + x0] + (u - x0) * (data[y0 * width + x1] - data[y0 * width + x0]);
  const bottom = data[y1 * width + x0] + (u - x0) * (data[y1 * width + x1] - data[y1 * width + x0]);
  return top + (v - y0) * (bottom - top);
}

/** The plane at another size by bilinear reading (for enlarging; average first when making it much smaller). */
export function stretch(plane: Plane, width: number, height: number): Plane {
  return planeOf(width, height, (p) =>
    readAt(
      plane,
      (((p % width) + 0.5) * plane.width) / width - 0.5,
      ((Math.floor(p / width) + 0.5) * plane.height) / height - 0.5,
    ),
  );
}
