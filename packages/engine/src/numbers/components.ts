/** Joined areas of marked places. */
export interface Components {
  /** Number of the area each place belongs to, −1 for none; row-major. */
  readonly labels: Int32Array;
  readonly areas: readonly Component[];
}

export interface Component {
  /** Number of places. */
  readonly size: number;
  /** First and last column and row that the area touches. */
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** Finds the areas of places for which `marked` holds, joined along edges (not corners). */
export function joinedAreas(width: number, height: number, marked: (place: number) => boolean): Components {
  const labels = new Int32Array(width * height).fill(-1);
  const areas: Component[] = [];
  const queue = new Int32Array(width * height);
  for (let start = 0; start < labels.length; start++) {
    if (labels[start] >= 0 || !marked(start)) continue;
    const id = areas.length;
    let [left, top, right, bottom] = [width, height, 0, 0];
    let size = 0;
    queue[size++] = start;
    labels[start] = id;
    for (let at = 0; at < size; at++) {
      const p = queue[at];
      const x = p % width;
      const y = (p - x) / width;
      left = Math.min(left, x);
      right = Math.max(right, x);
      top = Math.min(top, y);
      bottom = Math.max(bottom, y);
      if (x > 0 && labels[p - 1] < 0 && marked(p - 1)) {
        labels[p - 1] = id;
        queue[size++] = p - 1;
      }
      if (x < width - 1 && labels[p + 1] < 0 && marked(p + 1)) {
        labels[p + 1] = id;
        queue[size++] = p + 1;
      }
      if (y > 0 && labels[p - width] < 0 && marked(p - width)) {
        labels[p - width] = id;
        queue[size++] = p - width;
      }
      if (y < height - 1 && labels[p + width] < 0 && marked(p + width)) {
        labels[p + width] = id;
        queue[size++] = p + width;
      }
    }
    areas.push({ size, left, top, right, bottom });
  }
  return { labels, areas };
}
