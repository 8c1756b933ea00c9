/**
 * The passes of the scene at the size of the study, from two casts: every place once without lights, and a
 * smaller one with them, because soft light needs fewer pixels than edges do.
 */
import { type Passes, render, type Scene } from '../scene/index.ts';
import { type Place, placeOf } from './place.ts';

/** What the painter knows of the scene. Row-major, three-channel fields interleaved, linear. */
export interface Study {
  readonly width: number;
  readonly height: number;
  readonly aspect: number;
  readonly seed: number;
  readonly reflectance: Float32Array;
  readonly key: Float32Array;
  readonly fill: Float32Array;
  /** 0 shade … 1 lit and facing the light. */
  readonly k: Float32Array;
  readonly mirror: Float32Array;
  readonly mirrorShare: Float32Array;
  readonly emissive: Float32Array;
  readonly clear: Float32Array;
  readonly air: Float32Array;
  /** Colour of the sky where it is seen. */
  readonly heaven: Float32Array;
  readonly depth: Float32Array;
  readonly normal: Float32Array;
  readonly position: Float32Array;
  readonly along: Float32Array;
  /** Index of the body, −1 for sky. */
  readonly body: Int32Array;
  readonly surface: Int32Array;
  readonly things: readonly string[];
  readonly surfaceNames: readonly string[];
}

/** One cast of a band of rows. */
export interface CastJob {
  readonly seed: number;
  readonly width: number;
  readonly height: number;
  readonly rows: readonly [number, number];
  /** With lights, fill occlusion and mirrors, or only what stands where. */
  readonly lit: boolean;
}

/** Size of the study for a picture, and of its lit cast. */
export function studySize(width: number, height: number): { study: [number, number]; lit: [number, number] } {
  const fit = (most: number): [number, number] => {
    const w = Math.min(width, most);
    return [w, Math.max(1, Math.round((w * height) / width))];
  };
  return {
    study: fit(width > 3000 ? 1800 : 1200),
    lit: fit(Math.min(560, Math.max(160, Math.round(width * 0.4)))),
  };
}

/** Factor on the rays for soft light: what they leave rough the strokes smooth out. */
const QUALITY = 0.6;

/** Casts a band; pure, so that workers can share the rows. */
export function cast(job: CastJob): Passes {
  const { scene } = placeOf({ seed: job.seed, aspect: job.width / job.height });
  return render(job.lit ? scene : unlit(scene), job.width, job.height, { rows: job.rows, quality: QUALITY });
}

/** The scene without lights and mirrors: only what stands where. Materials shared by bodies stay shared. */
function unlit(scene: Scene): Scene {
  const dull = new Map(
    scene.bodies.map(({ material: { mirror: _m, ...rest }, material }) => [material, rest]),
  );
  return {
    ...scene,
    bodies: scene.bodies.map((b) => ({ ...b, material: dull.get(b.material)! })),
    lights: [],
    fill: { up: scene.fill.up, down: scene.fill.down },
  };
}

/** Brings the light of the small cast onto the fine one, keeping to bodies and facings (joint bilateral upsampling, Kopf et al. 2007). */
export function studyOf(fine: Passes, lit: Passes, seed: number): Study {
  const { width, height } = fine;
  const n = width * height;
  const key = new Float32Array(n * 3);
  const fill = new Float32Array(n * 3);
  const mirror = new Float32Array(n * 3);
  const mirrorShare = new Float32Array(n);
  const k = new Float32Array(n);
  const heaven = new Float32Array(n * 3);
  const sx = lit.width / width;
  const sy = lit.height / height;
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const i = y * width + x;
      if (fine.sky[i]) {
        for (let c = 0; c < 3; c++) heaven[i * 3 + c] = fine.colour[i * 3 + c]!;
        continue;
      }
      const fx = (x + 0.5) * sx - 0.5;
      const fy = (y + 0.5) * sy - 0.5;
      let total = 0;
      // The nearest four first; a wider look where the body isn't among them.
      for (let reach = 1; reach <= 3 && total < 1e-3; reach++) {
        if (reach === 2) continue;
        total = gather(fine, lit, i, fx, fy, reach, key, fill, mirror, mirrorShare, k);
      }
      if (total > 0) {
        const inv = 1 / total;
        for (let c = i * 3; c < i * 3 + 3; c++) {
          key[c]! *= inv;
          fill[c]! *= inv;
          mirror[c]! *= inv;
        }
        mirrorShare[i]! *= inv;
        k[i]! *= inv;
      } else for (let c = i * 3; c < i * 3 + 3; c++) fill[c] = 0.6 * fine.fill[c]!;
    }
  return {
    width,
    height,
    aspect: width / height,
    seed,
    reflectance: fine.reflectance,
    key,
    fill,
    k,
    mirror,
    mirrorShare,
    emissive: fine.emissive,
    clear: fine.clear,
    air: fine.air,
    heaven,
    depth: fine.depth,
    normal: fine.normal,
    position: fine.position,
    along: fine.along,
    body: fine.body,
    surface: fine.surface,
    things: fine.things,
    surfaceNames: fine.surfaceNames,
  };
}

function gather(
  fine: Passes,
  lit: Passes,
  i: number,
  fx: number,
  fy: number,
  reach: number,
  key: Float32Array,
  fill: Float32Array,
  mirror: Float32Array,
  mirrorShare: Float32Array,
  k: Float32Array,
): number {
  const x0 = Math.floor(fx) - reach + 1;
  const y0 = Math.floor(fy) - reach + 1;
  const foot = (2.5 * fine.depth[i]!) / lit.width;
  let total = 0;
  for (let yy = Math.max(0, y0); yy <= Math.min(lit.height - 1, y0 + 2 * reach - 1); yy++)
    for (let xx = Math.max(0, x0); xx <= Math.min(lit.width - 1, x0 + 2 * reach - 1); xx++) {
      const j = yy * lit.width + xx;
      if (lit.sky[j]) continue;
      let w = Math.max(0, 1 - Math.abs(xx - fx) / reach) * Math.max(0, 1 - Math.abs(yy - fy) / reach) + 1e-3;
      if (lit.body[j] !== fine.body[i]) {
        // Only the same kind of thing near by can stand in.
        if (lit.surface[j] !== fine.surface[i]) continue;
        const d = Math.hypot(
          lit.position[j * 3]! - fine.position[i * 3]!,
          lit.position[j * 3 + 1]! - fine.position[i * 3 + 1]!,
          lit.position[j * 3 + 2]! - fine.position[i * 3 + 2]!,
        );
        w *= 0.05 * Math.exp(-d / (4 * foot));
      }
      const same =
        lit.normal[j * 3]! * fine.normal[i * 3]! +
        lit.normal[j * 3 + 1]! * fine.normal[i * 3 + 1]! +
        lit.normal[j * 3 + 2]! * fine.normal[i * 3 + 2]!;
      w *= Math.max(1e-4, same) ** 8;
      total += w;
      for (let c = 0; c < 3; c++) {
        key[i * 3 + c]! += w * lit.key[j * 3 + c]!;
        fill[i * 3 + c]! += w * lit.fill[j * 3 + c]!;
        mirror[i * 3 + c]! += w * lit.mirror[j * 3 + c]!;
      }
      mirrorShare[i]! += w * lit.mirrorShare[j]!;
      k[i]! += w * lit.k[j]!;
    }
  return total;
}

/** Place on the picture of a point of the world: x in widths, y in heights. */
export function onPicture(place: Place, p: readonly [number, number, number]): [number, number] {
  const far = -(p[2] - place.eye[2]);
  return [
    0.5 + (p[0] - place.eye[0]) / far / place.tan / 2,
    place.horizon - (p[1] - place.eye[1]) / far / ((2 * place.tan) / place.aspect),
  ];
}
