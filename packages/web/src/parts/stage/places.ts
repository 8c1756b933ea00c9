import type { Finding, Place } from '@halflight/engine';

/** The outline of a place: its own, else its box. */
export function outlineOf(place: Place): readonly number[] {
  if (place.outline && place.outline.length >= 6) return place.outline;
  const { x, y, width, height } = place;
  return [x, y, x + width, y, x + width, y + height, x, y + height];
}

/** True when a point (shares of the picture) lies in a place; even-odd rule. */
export function isInPlace(place: Place, x: number, y: number): boolean {
  const outline = outlineOf(place);
  let inside = false;
  for (let i = 0, j = outline.length - 2; i < outline.length; j = i, i += 2) {
    const [ax, ay, bx, by] = [outline[j], outline[j + 1], outline[i], outline[i + 1]];
    if (ay > y !== by > y && x < ax + ((y - ay) / (by - ay)) * (bx - ax)) inside = !inside;
  }
  return inside;
}

/** The note that a point of the picture belongs to: the one with the smallest place around it. */
export function noteAt(findings: readonly Finding[], x: number, y: number): string | null {
  let found: { key: string; share: number } | null = null;
  for (const { key, places = [] } of findings) {
    for (const place of places) {
      if (isInPlace(place, x, y) && (found === null || place.share < found.share))
        found = { key, share: place.share };
    }
  }
  return found?.key ?? null;
}

/** An outline as a closed SVG path in the units of `width` and `height`, its corners rounded like a drawn line. */
export function outlinePath(outline: readonly number[], width: number, height: number): string {
  const count = outline.length / 2;
  const x = (i: number): number => outline[2 * (i % count)] * width;
  const y = (i: number): number => outline[2 * (i % count) + 1] * height;
  const middle = (i: number): string =>
    `${((x(i) + x(i + 1)) / 2).toFixed(1)} ${((y(i) + y(i + 1)) / 2).toFixed(1)}`;
  let path = `M${middle(0)}`;
  for (let i = 1; i <= count; i++) path += `Q${x(i).toFixed(1)} ${y(i).toFixed(1)} ${middle(i)}`;
  return `${path}Z`;
}
