/** What the painter makes of the study: regions, hands, directions, importance. */
import type { Guide, Hand } from '../paint/guide.ts';
import { blurred } from '../paint/guide.ts';
import { THIN } from './materials.ts';
import type { Place } from './place.ts';
import { onPicture, type Study } from './study.ts';

const hand = (name: string, over: Partial<Hand>): Hand => ({
  name,
  largest: 0.05,
  smallest: 0.0012,
  length: 7,
  opacity: 0.92,
  dryness: 0.35,
  softness: 0.12,
  streak: 0.12,
  value: 0.025,
  hue: 4,
  chroma: 0.1,
  tolerance: 0.03,
  ...over,
});

/** How each kind of thing is painted. */
export const HANDS: readonly Hand[] = [
  hand('sky', {
    largest: 0.06,
    smallest: 0.0035,
    length: 9,
    opacity: 0.74,
    dryness: 0.45,
    softness: 0.3,
    streak: 0.12,
    value: 0.022,
    hue: 4,
    tolerance: 0.016,
  }),
  hand('far', {
    largest: 0.028,
    smallest: 0.002,
    length: 6,
    opacity: 0.8,
    softness: 0.3,
    streak: 0.08,
    tolerance: 0.03,
  }),
  hand('water', {
    largest: 0.03,
    smallest: 0.0016,
    length: 6,
    opacity: 0.84,
    dryness: 0.35,
    softness: 0.3,
    crossBelow: 0.008,
    tolerance: 0.03,
  }),
  hand('ground', {
    largest: 0.04,
    smallest: 0.002,
    length: 6,
    dryness: 0.5,
    softness: 0.15,
    streak: 0.16,
    tolerance: 0.045,
  }),
  hand('wood', { largest: 0.03, length: 7, dryness: 0.4, softness: 0.06, streak: 0.16, tolerance: 0.034 }),
  hand('dark wood', { largest: 0.03, length: 8, dryness: 0.4, softness: 0.06, streak: 0.2, tolerance: 0.04 }),
  hand('thing', { largest: 0.02, length: 5, dryness: 0.3, softness: 0.08, tolerance: 0.03 }),
  hand('net', {
    largest: 0.022,
    smallest: 0.0016,
    length: 12,
    shortest: 3,
    dryness: 0.5,
    softness: 0.15,
    streak: 0.2,
    tolerance: 0.05,
  }),
  hand('light', {
    largest: 0.012,
    length: 3,
    dryness: 0.15,
    softness: 0.2,
    streak: 0.04,
    value: 0.01,
    hue: 2,
    tolerance: 0.02,
  }),
];

const HAND_OF: Record<string, string> = {
  water: 'water',
  mud: 'ground',
  flats: 'ground',
  spit: 'far',
  'far shore': 'far',
  nets: 'net',
  jetty: 'wood',
  landing: 'wood',
  'right shed': 'wood',
  'middle shed': 'wood',
  'left shed': 'wood',
  boat: 'thing',
  crates: 'thing',
};
const BACK = ['sky', 'far shore', 'spit', 'flats', 'water', 'mud'];

/** Regions of a study: what strokes keep to. */
export interface Regions {
  readonly region: Int32Array;
  readonly order: Float32Array;
  readonly hand: Uint8Array;
  readonly names: readonly string[];
}

/** A region is a thing's side of one material. */
export function regionsOf(study: Study): Regions {
  const { body, surface, normal, depth, things, surfaceNames } = study;
  const region = new Int32Array(body.length);
  const order = new Float32Array(body.length);
  const index = new Map<string, number>([['sky', 0]]);
  for (let i = 0; i < body.length; i++) {
    const b = body[i]!;
    if (b < 0) continue;
    const thing = things[b]!;
    let name = thing;
    if (!BACK.includes(thing)) {
      const nx = normal[i * 3]!;
      const ny = normal[i * 3 + 1]!;
      const nz = normal[i * 3 + 2]!;
      const round = surfaceNames[surface[i]!] === 'pile' || surfaceNames[surface[i]!] === 'pole';
      const side = round
        ? ''
        : ny > 0.75
          ? 'top'
          : ny > 0.3
            ? nx > 0
              ? 'slope right'
              : 'slope left'
            : nx < -0.6
              ? 'left'
              : nx > 0.6
                ? 'right'
                : nz > 0
                  ? 'front'
                  : 'back';
      name = `${thing}/${surfaceNames[surface[i]!]}/${side}`;
    }
    let r = index.get(name);
    if (r === undefined) {
      r = index.size;
      index.set(name, r);
    }
    region[i] = r;
    // Far things first; among the ground the farther kind.
    const back = BACK.indexOf(thing);
    order[i] = back >= 0 ? back : BACK.length + 40 * (1 - Math.min(1, Math.log(1 + depth[i]!) / 6));
  }
  const names = [...index.keys()];
  const handIndex = (name: string) => HANDS.findIndex((h) => h.name === name);
  const hand = Uint8Array.from(names, (name) => {
    if (name === 'sky') return 0;
    const [thing, material] = name.split('/');
    if (material === 'lamp' || material === 'door light' || material === 'window') return handIndex('light');
    if (material === 'float' || material === 'rope') return handIndex('thing');
    if (material === 'pile' || material === 'beam') return handIndex('dark wood');
    return handIndex(HAND_OF[thing!] ?? 'thing');
  });
  return { region, order, hand, names };
}

/** Importance by place: the door first, then the lamp and its path, the sheds, the boat; foreground and sky are quiet. */
export function importanceOf(study: Study, place: Place, regions: Regions): Float32Array {
  const { width, height } = study;
  const out = new Float32Array(width * height);
  const [fx, fy] = onPicture(place, place.focus);
  const [lx, ly] = onPicture(place, place.lamp);
  const base = regions.names.map((n) =>
    n === 'sky'
      ? 0.04
      : n.startsWith('figure')
        ? 0.9
        : n.includes('middle shed')
          ? 0.45
          : n.includes('shed')
            ? 0.3
            : n.startsWith('boat')
              ? 0.32
              : n.startsWith('jetty') || n.startsWith('landing')
                ? 0.22
                : n.startsWith('net')
                  ? 0.06
                  : n === 'mud'
                    ? 0.03
                    : n === 'water'
                      ? 0.12
                      : 0.12,
  );
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const i = y * width + x;
      const px = (x + 0.5) / width;
      const py = (y + 0.5) / width;
      const ar = height / width;
      const spot = (cx: number, cy: number, s: number) =>
        Math.exp(-((px - cx) ** 2 + (py - cy * ar) ** 2) / (2 * s * s));
      let v = base[regions.region[i]!]!;
      v += 0.75 * spot(fx, fy, 0.055) + 0.4 * spot(lx, ly, 0.025) + 0.12 * spot(fx - 0.02, fy + 0.02, 0.13);
      // Down in front everything stays broad.
      v *= 1 - 0.75 * Math.min(1, Math.max(0, (py / ar - 0.74) / 0.22));
      out[i] = Math.min(1, v);
    }
  return out;
}

/** The guide for one picture of the scene. `coarse` leaves out what is thin, for the big brushes. */
export function guidesOf(
  study: Study,
  regions: Regions,
  importance: Float32Array,
  picture: Float32Array,
): { fine: Guide; coarse: Guide } {
  const { width, height } = study;
  const fine: Guide = {
    width,
    height,
    colour: picture,
    region: regions.region,
    order: regions.order,
    hand: regions.hand,
    hands: HANDS,
    direction: directions(study, regions, picture),
    importance,
  };
  const from = withoutThin(study);
  const colour = new Float32Array(picture.length);
  const region = new Int32Array(regions.region.length);
  const direction = new Float32Array(fine.direction.length);
  const order = new Float32Array(regions.order.length);
  // Nets are seen through: from afar they are the mean of their threads and what is behind.
  const mean = blurred(picture, width, height, 3, width / 150);
  const cover = new Float32Array(from.length);
  for (let i = 0; i < from.length; i++) cover[i] = study.things[study.body[i]!] === 'nets' ? 1 : 0;
  const near = blurred(cover, width, height, 1, width / 150);
  for (let i = 0; i < from.length; i++) {
    const j = from[i]!;
    region[i] = regions.region[j]!;
    order[i] = regions.order[j]!;
    const netted = Math.min(1, near[i]! * 3);
    for (let c = 0; c < 3; c++) {
      const plain = picture[j * 3 + c]!;
      colour[i * 3 + c] = plain + (mean[i * 3 + c]! - plain) * netted;
    }
    direction[i * 2] = fine.direction[j * 2]!;
    direction[i * 2 + 1] = fine.direction[j * 2 + 1]!;
  }
  return { fine, coarse: { ...fine, colour, region, order, direction } };
}

/** For every pixel itself, or where something thin stands the nearest pixel beside it. */
function withoutThin(study: Study): Int32Array {
  const { width, height, body, surface, depth, things, surfaceNames } = study;
  const thin = (i: number) => {
    if (body[i]! < 0) return false;
    const s = surfaceNames[surface[i]!]!;
    const t = things[body[i]!]!;
    return (
      THIN.has(s) ||
      t === 'withies' ||
      t === 'lamp post' ||
      t === 'mooring' ||
      (s === 'pile' && depth[i]! > 15)
    );
  };
  const from = new Int32Array(width * height);
  for (let y = 0; y < height; y++) {
    const row = y * width;
    for (let x = 0; x < width; x++) {
      if (!thin(row + x)) {
        from[row + x] = row + x;
        continue;
      }
      let l = x;
      let r = x;
      while (l >= 0 && thin(row + l)) l--;
      while (r < width && thin(row + r)) r++;
      from[row + x] = row + (l < 0 ? Math.min(width - 1, r) : r >= width ? l : x - l <= r - x ? l : r);
    }
  }
  return from;
}

/** Directions of strokes: the surface's grain, else level for sky and flats, upright for reflections, bent by strong edges. */
function directions(study: Study, regions: Regions, picture: Float32Array): Float32Array {
  const { width, height, along } = study;
  const n = width * height;
  const tone = new Float32Array(n);
  for (let i = 0; i < n; i++)
    tone[i] = Math.sqrt(
      Math.max(0, 0.21 * picture[i * 3]! + 0.72 * picture[i * 3 + 1]! + 0.07 * picture[i * 3 + 2]!),
    );
  const soft = blurred(tone, width, height, 1, width / 400);
  const out = new Float32Array(n * 2);
  const tensor = new Float32Array(n * 2);
  for (let y = 1; y < height - 1; y++)
    for (let x = 1; x < width - 1; x++) {
      const i = y * width + x;
      const gx = soft[i + 1]! - soft[i - 1]!;
      const gy = soft[i + width]! - soft[i - width]!;
      // Tangent of the edge as a doubled angle: (cos 2θ, sin 2θ) of the gradient turned by a right angle.
      tensor[i * 2] = -(gx * gx - gy * gy);
      tensor[i * 2 + 1] = -2 * gx * gy;
    }
  const smooth = blurred(tensor, width, height, 2, width / 160);
  for (let i = 0; i < n; i++) {
    const r = regions.region[i]!;
    const h = HANDS[regions.hand[r]!]!.name;
    let cx = 0;
    let cy = 0;
    const ax = along[i * 2]!;
    const ay = along[i * 2 + 1]!;
    const bend = Math.hypot(smooth[i * 2]!, smooth[i * 2 + 1]!);
    let strength = 0;
    if (h === 'water') {
      cx = -1;
    } else if (h === 'sky') {
      cx = 0.9;
      cy = -0.16;
      strength = 2.2;
    } else if (h === 'ground' || h === 'far') {
      cx = 1;
      strength = 0.7;
    } else if (ax !== 0 || ay !== 0) {
      cx = ax * ax - ay * ay;
      cy = 2 * ax * ay;
      strength = 0.3;
    } else {
      cx = -0.3;
      strength = 1;
    }
    if (strength > 0 && bend > 0) {
      const w = (strength * bend) / (bend + 2e-5);
      cx += (w * smooth[i * 2]!) / bend;
      cy += (w * smooth[i * 2 + 1]!) / bend;
    }
    out[i * 2] = cx;
    out[i * 2 + 1] = cy;
  }
  return out;
}
