/** Geometry of the hue ring: hue 0° to the right, growing against the clock, as in the OKLab plane. */
export const RING = { size: 272, radius: 84, longest: 44 } as const;

const MIDDLE = RING.size / 2;

/** A point of the ring's plane. */
export function onRing(hue: number, radius: number): { x: number; y: number } {
  const t = (hue * Math.PI) / 180;
  return { x: MIDDLE + radius * Math.cos(t), y: MIDDLE - radius * Math.sin(t) };
}

/** The hue under a point, 0…360. */
export function hueAt(x: number, y: number): number {
  return ((Math.atan2(MIDDLE - y, x - MIDDLE) * 180) / Math.PI + 360) % 360;
}

/** Distance of a point from the middle. */
export function radiusAt(x: number, y: number): number {
  return Math.hypot(x - MIDDLE, y - MIDDLE);
}

/** An arc around a hue as an SVG path. */
export function arcPath(hue: number, width: number, radius: number): string {
  if (width >= 359.9) {
    const [a, b] = [onRing(0, radius), onRing(180, radius)];
    return `M${a.x} ${a.y}A${radius} ${radius} 0 1 0 ${b.x} ${b.y}A${radius} ${radius} 0 1 0 ${a.x} ${a.y}`;
  }
  const from = onRing(hue - width / 2, radius);
  const to = onRing(hue + width / 2, radius);
  return `M${from.x} ${from.y}A${radius} ${radius} 0 ${width > 180 ? 1 : 0} 0 ${to.x} ${to.y}`;
}

/** A wedge of the ring from one radius to another. */
export function wedgePath(from: number, to: number, inner: number, outer: number): string {
  const [a, b, c, d] = [onRing(from, inner), onRing(from, outer), onRing(to, outer), onRing(to, inner)];
  return `M${a.x} ${a.y}L${b.x} ${b.y}A${outer} ${outer} 0 0 0 ${c.x} ${c.y}L${d.x} ${d.y}A${inner} ${inner} 0 0 1 ${a.x} ${a.y}Z`;
}

/** The signed turn from one hue to another, −180…180. */
export function turn(from: number, to: number): number {
  return ((to - from + 540) % 360) - 180;
}
