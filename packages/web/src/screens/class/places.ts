/** A point on the page or in any plane, y downwards. */
export interface At {
  readonly x: number;
  readonly y: number;
}

/** Which way an arrow key points. */
const WAYS: Record<string, readonly [number, number]> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};

/**
 * The point that an arrow key leads to: the nearest one in that direction, where what lies aside counts double, inside
 * a right angle about the direction; null when there is none, or for another key.
 */
export function nearestInDirection(points: readonly At[], from: number, key: string): number | null {
  const way = WAYS[key];
  const start = points[from];
  if (!way || !start) return null;
  let best: { at: number; cost: number } | null = null;
  for (const [at, point] of points.entries()) {
    if (at === from) continue;
    const [dx, dy] = [point.x - start.x, point.y - start.y];
    const ahead = dx * way[0] + dy * way[1];
    const aside = Math.abs(dx * way[1]) + Math.abs(dy * way[0]);
    if (ahead <= 0 || aside > ahead) continue;
    const cost = ahead + 2 * aside;
    if (best === null || cost < best.cost) best = { at, cost };
  }
  if (best) return best.at;
  // Nothing in the right angle: whatever lies that way at all, the least aside first.
  for (const [at, point] of points.entries()) {
    const [dx, dy] = [point.x - start.x, point.y - start.y];
    const ahead = dx * way[0] + dy * way[1];
    if (at === from || ahead <= 0) continue;
    const cost = ahead + 4 * (Math.abs(dx * way[1]) + Math.abs(dy * way[0]));
    if (best === null || cost < best.cost) best = { at, cost };
  }
  return best?.at ?? null;
}

/** Rounds of pushing, and the most that a picture may be pushed, in shares of its size. */
const ROUNDS = 40;
const MOST = 0.6;

/**
 * Moves pictures that lie upon each other a little apart, so that each can be seen; none leaves its place by more than
 * a part of its size, and none leaves the plane.
 *
 * @param places true centres, in pixels of a plane of `width × height`
 * @param size longer side of a picture
 */
export function pushApart(places: readonly At[], size: number, width: number, height: number): At[] {
  const [w, h] = [size, size * 0.72];
  // Those on the very same place begin in different directions: by the golden angle.
  const now = places.map(({ x, y }, k) => ({ x: x + Math.cos(2.4 * k), y: y + 0.72 * Math.sin(2.4 * k) }));
  const inside = (value: number, room: number, side: number): number =>
    Math.min(Math.max(side / 2, room - side / 2), Math.max(side / 2, value));
  for (let round = 0; round < ROUNDS; round++) {
    for (let i = 0; i < now.length; i++) {
      for (let j = i + 1; j < now.length; j++) {
        const dx = now[j].x - now[i].x;
        const dy = now[j].y - now[i].y;
        const [over, under] = [w - Math.abs(dx), h - Math.abs(dy)];
        if (over <= 0 || under <= 0) continue;
        if (over / w < under / h) {
          const by = (Math.sign(dx) * over) / 4;
          now[i].x -= by;
          now[j].x += by;
        } else {
          const by = (Math.sign(dy) * under) / 4;
          now[i].y -= by;
          now[j].y += by;
        }
      }
    }
    for (const [k, place] of now.entries()) {
      const { x, y } = places[k];
      place.x = inside(Math.min(x + MOST * size, Math.max(x - MOST * size, place.x)), width, w);
      place.y = inside(Math.min(y + MOST * size, Math.max(y - MOST * size, place.y)), height, h);
    }
  }
  return now;
}
