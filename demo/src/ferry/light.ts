/** From passes to a picture: light on pigment, mist, the glow around the lamps, the lamps' path on the water. */
import { noise2 } from '../scene/index.ts';
import { KEY } from './materials.ts';
import type { Place } from './place.ts';
import { onPicture, type Study } from './study.ts';

/** Strengths of what is added in the air and on the water. */
export interface Atmosphere {
  /** Extra mist over the one of the scene, 0…1. */
  readonly mist: number;
  /** Light scattered around the lamps. */
  readonly glow: number;
  /** The lamps' reflection on water and wet mud: the accent. */
  readonly path: number;
}

/** Far water as one sees it: level glints, not single points. In place; shorter near by. */
export function calmFar(study: Study, picture: Float32Array): void {
  const { width, height, depth, body, things } = study;
  const row = new Float32Array(width * 3);
  for (let y = 0; y < height; y++) {
    row.set(picture.subarray(y * width * 3, (y + 1) * width * 3));
    for (let x = 0; x < width; x++) {
      const i = y * width + x;
      const b = body[i]!;
      if (b < 0 || depth[i]! < 18) continue;
      const thing = things[b]!;
      if (thing !== 'water' && thing !== 'flats' && thing !== 'mud') continue;
      const reach = Math.round((width / 1200) * Math.min(9, (depth[i]! - 18) / 6));
      let n = 0;
      let r = 0;
      let g = 0;
      let v = 0;
      for (let d = -reach; d <= reach; d++) {
        const xx = x + d;
        if (xx < 0 || xx >= width || body[y * width + xx] !== b) continue;
        r += row[xx * 3]!;
        g += row[xx * 3 + 1]!;
        v += row[xx * 3 + 2]!;
        n++;
      }
      picture[i * 3] = r / n;
      picture[i * 3 + 1] = g / n;
      picture[i * 3 + 2] = v / n;
    }
  }
}

/** Light as it leaves the surfaces: ρ·(key + fill), mirrored light and own light; sky where nothing stands. Before mist. */
export function surfaces(study: Study): Float32Array {
  const { reflectance, key, fill, mirror, mirrorShare, emissive, heaven, body } = study;
  const out = new Float32Array(reflectance.length);
  for (let i = 0; i < body.length; i++)
    for (let c = i * 3; c < i * 3 + 3; c++)
      out[c] =
        body[i]! < 0
          ? heaven[c]!
          : reflectance[c]! * (key[c]! + fill[c]!) * (1 - mirrorShare[i]!) + mirror[c]! + emissive[c]!;
  return out;
}

/** Lays the air over the surfaces' light, in place. */
export function layAir(study: Study, place: Place, picture: Float32Array, air: Atmosphere): void {
  const { width, height, clear, body, depth, position } = study;
  const lamps = [place.lamp, place.doorLamp].map((p) => {
    const [x, y] = onPicture(place, p);
    return { x: x * width, y: y * height, far: -p[2] };
  });
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const i = y * width + x;
      const sky = body[i]! < 0;
      if (!sky) {
        // Ground mist gathers low over the far flats.
        const low = Math.exp(-Math.max(0, position[i * 3 + 1]!) / 2.6);
        const bank = air.mist * low * (1 - Math.exp(-Math.max(0, depth[i]! - 22) / 60)) * 0.66;
        const t = clear[i]! * (1 - bank);
        const s = clear[i]! < 1 ? (1 - t) / (1 - clear[i]!) : 0;
        for (let c = 0; c < 3; c++) {
          const j = i * 3 + c;
          picture[j] = picture[j]! * t + study.air[j]! * s;
        }
      } else {
        // The same mist before the lowest sky.
        const over = (place.horizon * height - y) / height;
        const bank = air.mist * 0.32 * Math.exp(-Math.max(0, over) / 0.012);
        for (let c = 0; c < 3; c++) {
          const j = i * 3 + c;
          const m = MIST[c]!;
          picture[j]! += (m - picture[j]!) * bank;
        }
      }
      let halo = 0;
      for (const lamp of lamps) {
        const d = Math.hypot(x - lamp.x, y - lamp.y) / width;
        halo += 0.000055 / (d * d + 0.00022) + 0.05 * Math.exp(-d / 0.045);
      }
      halo *= air.glow * 0.34;
      for (let c = 0; c < 3; c++) picture[i * 3 + c]! += halo * KEY[c]!;
    }
  if (air.path > 0) for (const lamp of lamps) layPath(study, place, picture, lamp, air.path);
}

const MIST = [0.42, 0.31, 0.3] as const;

/** The broken upright path of a lamp's light on water: short level strokes, wider towards the eye. */
function layPath(
  study: Study,
  place: Place,
  picture: Float32Array,
  lamp: { x: number; y: number; far: number },
  amount: number,
): void {
  const { width, height, mirrorShare } = study;
  const horizon = place.horizon * height;
  const centre =
    horizon + (horizon - lamp.y) + (2 * place.eye[1] * place.aspect * height) / (2 * place.tan * lamp.far);
  for (let y = Math.ceil(horizon); y < height; y++)
    for (let x = 0; x < width; x++) {
      const i = y * width + x;
      const wet = mirrorShare[i]!;
      if (wet < 0.05) continue;
      const v = (y - centre) / height;
      const long = Math.exp(-((v / (v < 0 ? 0.13 : 0.2)) ** 2));
      const drift = 0.006 * (noise2(y / height / 0.011, lamp.far, study.seed + 81) - 0.5) * 2;
      const u = (x - lamp.x) / width - drift;
      const wide = 0.0042 + 0.006 * Math.max(0, (y - horizon) / (height - horizon));
      const across = Math.exp(-((u / wide) ** 2));
      const depth = (y - horizon) / height + 0.02;
      const broken = noise2(x / width / 0.02, 2.1 / depth, study.seed + 82);
      const gap = Math.min(1, Math.max(0, (broken - 0.42) * 5));
      const light = amount * 0.85 * long * across * gap * Math.min(1, wet * 3);
      for (let c = 0; c < 3; c++) picture[i * 3 + c]! += light * KEY[c]!;
    }
}
