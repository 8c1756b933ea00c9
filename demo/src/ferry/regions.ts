/** The study as a painter divides it: regions that strokes keep to, and how much each place matters. */
import { HAND_OF, HANDS } from './hands.ts';
import type { Place } from './place.ts';
import { onPicture, type Study } from './study.ts';

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
      const material = surfaceNames[surface[i]!]!;
      const round = material === 'pile' || material === 'pole';
      const side = round ? '' : sideOf(nx, ny, nz);
      name = `${thing}/${material}/${side}`;
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
  const base = regions.names.map(weightOf);
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

/** Which side of a thing a normal shows. */
function sideOf(nx: number, ny: number, nz: number): string {
  if (ny > 0.75) return 'top';
  if (ny > 0.3) return nx > 0 ? 'slope right' : 'slope left';
  if (nx < -0.6) return 'left';
  if (nx > 0.6) return 'right';
  return nz > 0 ? 'front' : 'back';
}

const WEIGHTS: readonly (readonly [start: string, weight: number])[] = [
  ['figure', 0.9],
  ['middle shed', 0.45],
  ['boat', 0.32],
  ['right shed', 0.3],
  ['left shed', 0.3],
  ['jetty', 0.22],
  ['landing', 0.22],
  ['net', 0.06],
  ['sky', 0.04],
  ['mud', 0.03],
];

/** Importance of a region for what it is. */
function weightOf(region: string): number {
  return WEIGHTS.find(([start]) => region.startsWith(start))?.[1] ?? 0.12;
}
