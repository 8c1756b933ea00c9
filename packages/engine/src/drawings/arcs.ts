/** A point on a circle; 0° points right, angles turn against the clock. */
function point(cx: number, cy: number, r: number, degrees: number): string {
  const t = (degrees * Math.PI) / 180;
  return `${round(cx + r * Math.cos(t))} ${round(cy - r * Math.sin(t))}`;
}

/** Path of an open arc from one angle against the clock to another, as a stroke. */
export function arcPath(cx: number, cy: number, r: number, from: number, to: number): string {
  const width = Math.min(359.9, to - from);
  const large = width > 180 ? 1 : 0;
  return `M${point(cx, cy, r, from)}A${r} ${r} 0 ${large} 0 ${point(cx, cy, r, from + width)}`;
}

/** Path of a closed piece of a ring between two radii and two angles, as a filled shape. */
export function ringPath(cx: number, cy: number, r0: number, r1: number, from: number, to: number): string {
  const large = to - from > 180 ? 1 : 0;
  return (
    `M${point(cx, cy, r0, from)}L${point(cx, cy, r1, from)}A${round(r1)} ${round(r1)} 0 ${large} 0 ${point(cx, cy, r1, to)}` +
    `L${point(cx, cy, r0, to)}A${round(r0)} ${round(r0)} 0 ${large} 1 ${point(cx, cy, r0, from)}Z`
  );
}

/** Two digits after the point are enough for a drawing. */
export function round(v: number): number {
  return Math.round(100 * v) / 100;
}
