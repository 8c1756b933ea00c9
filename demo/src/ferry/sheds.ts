/** Net sheds: boarded walls, two roof planes, a door, on a floor of planks over piles. */
import { type Body, hash01, type Material, type Vec } from '../scene/index.ts';
import { pole } from './parts.ts';

/** A shed stands with its gable towards +z of its own frame, turned by `heading` degrees about the upright. */
export interface Shed {
  readonly thing: string;
  readonly x: number;
  readonly far: number;
  readonly floor: number;
  readonly width: number;
  readonly length: number;
  readonly wall: number;
  readonly rise: number;
  readonly heading: number;
  readonly walls: Material;
  readonly roof: Material;
  readonly trim: Material;
  readonly piles: Material;
}

/** World place (x, y up, z) of a point in the shed's own frame. */
export function inShed(s: Shed, x: number, y: number, z: number): Vec {
  const t = (s.heading * Math.PI) / 180;
  return [s.x + Math.cos(t) * x + Math.sin(t) * z, s.floor + y, -s.far - Math.sin(t) * x + Math.cos(t) * z];
}

/** A box in the shed's frame, centred at (x, y, z). */
export function inShedBox(
  s: Shed,
  material: Material,
  size: Vec,
  x: number,
  y: number,
  z: number,
  turn = 0,
  roll = 0,
): Body {
  return {
    shape: { kind: 'box', size },
    material,
    at: inShed(s, x, y, z),
    turn: [0, s.heading + turn, roll],
    thing: s.thing,
  };
}

export function shedBodies(s: Shed): Body[] {
  const { width, length, wall, rise } = s;
  const out: Body[] = [];
  out.push(inShedBox(s, s.walls, [width, wall, length], 0, wall / 2, 0));
  // Gable: a prism of wall boards under the roof planes.
  out.push({
    shape: { kind: 'roof', size: [width, rise, length - 0.02] },
    material: s.walls,
    at: inShed(s, 0, wall, 0),
    turn: [0, s.heading, 0],
    thing: s.thing,
  });
  const pitch = Math.atan2(rise, width / 2);
  const over = 0.34;
  const slope = Math.hypot(width / 2, rise) + over;
  for (const side of [-1, 1]) {
    // Middle of the plane, measured down the slope from the ridge.
    const along = slope / 2;
    out.push(
      inShedBox(
        s,
        s.roof,
        [slope, 0.1, length + 0.7],
        side * Math.cos(pitch) * along,
        wall + rise + 0.05 - Math.sin(pitch) * along,
        0.05,
        0,
        (-side * pitch * 180) / Math.PI,
      ),
    );
    out.push(inShedBox(s, s.trim, [0.14, wall, 0.14], side * (width / 2), wall / 2, length / 2));
    out.push(
      inShedBox(
        s,
        s.trim,
        [slope, 0.2, 0.06],
        side * Math.cos(pitch) * along,
        wall + rise - 0.08 - Math.sin(pitch) * along,
        length / 2 + 0.36,
        0,
        (-side * pitch * 180) / Math.PI,
      ),
    );
  }
  // Floor beam and piles.
  out.push(inShedBox(s, s.trim, [width + 0.5, 0.22, 0.2], 0, -0.11, length / 2 + 0.1));
  out.push(inShedBox(s, s.trim, [0.2, 0.22, length + 0.3], -width / 2 - 0.1, -0.11, 0));
  out.push(inShedBox(s, s.trim, [width, 0.12, length], 0, -0.06, 0));
  const across = Math.max(2, Math.round(width / 1.5));
  const deep = Math.max(2, Math.round(length / 2));
  for (let i = 0; i <= across; i++)
    for (let j = 0; j <= deep; j++) {
      if (i > 0 && i < across && j > 0 && j < deep) continue;
      const p = inShed(s, (i / across - 0.5) * width, 0, (j / deep - 0.5) * length);
      const r = hash01(i, j, 5, Math.round(s.x * 100)) - 0.5;
      out.push(pole(s.piles, s.thing, p[0], -p[2], -0.7, s.floor - 0.05, 0.11 + 0.02 * r, [2.4 * r, 3 * r]));
    }
  return out;
}
