/** Renders a test scene with its planted faults and its truth. */
import { luminance, type Passes, random, render } from '@halflight/demo/scene';
import { SUPPORT } from './compose/parts.ts';
import { dabs, jitter, strokes } from './finish.ts';
import { type SceneSpec, sceneOf } from './scenes.ts';
import * as T from './truth.ts';

export type Plant = 'clean' | 'neutral' | 'opposite';
export type Finish = 'plain' | 'jitter' | 'brush';
export const PLANTS: readonly Plant[] = ['clean', 'neutral', 'opposite'];
export const FINISHES: readonly Finish[] = ['plain', 'jitter', 'brush'];

export interface TestScene {
  readonly spec: SceneSpec;
  readonly width: number;
  readonly height: number;
  /** Linear pictures by plant (neutral light has the clean one only: its faults cannot be seen). */
  readonly pictures: ReadonlyMap<Plant, Float32Array>;
  /** Packed labels by plant, see truth.ts. */
  readonly labels: ReadonlyMap<Plant, Uint8Array>;
  /** Distance of shade to its lit part by plant, see truth.ts. */
  readonly distance: ReadonlyMap<Plant, Uint8Array>;
  readonly k: Float32Array;
  /** Rendered lit minus shade; null where no surface shows both, or the light is neutral. */
  readonly shift: { readonly x: number; readonly y: number; readonly surfaces: number } | null;
  /** What was planted on which things, as shares of the object area. */
  readonly planted: { readonly neutral: readonly string[]; readonly opposite: readonly string[] };
}

/** Two sub-pixels a side: faults are planted before they are averaged, as a painter's edge would mix. */
const SIDE = 2;

export function renderScene(spec: SceneSpec, onProgress?: (share: number) => void): TestScene {
  const { scene, composed } = sceneOf(spec);
  const [width, height] = composed.size;
  const plants = spec.light === 'neutral' ? (['clean'] as const) : PLANTS;
  const planted = spec.light === 'neutral' ? { neutral: [], opposite: [] } : choose(spec);
  const n = width * height;
  const pictures = new Map(plants.map((p) => [p, new Float32Array(n * 3)]));
  const labels = new Map(plants.map((p) => [p, new Uint8Array(n)]));
  const k = new Float32Array(n);
  const reflectance = new Float32Array(n * 3);
  const light = new Float32Array(n * 3);
  const surface = new Int32Array(n);
  const swap = swapOf(spec);
  const rows = 60;
  for (let y0 = 0; y0 < height; y0 += rows) {
    const y1 = Math.min(height, y0 + rows);
    const fine = render(scene, width * SIDE, height * SIDE, { rows: [y0 * SIDE, y1 * SIDE], quality: 0.35 });
    const kinds = kindsOf(fine);
    for (const plant of plants) {
      const things = plant === 'clean' ? [] : planted[plant];
      const colour = plant === 'clean' ? fine.colour : plantInto(fine, plant, new Set(things), swap);
      average(colour, fine, width, y0, pictures.get(plant)!, 3);
      packLabels(fine, kinds, plant, new Set(things), width, y0, labels.get(plant)!);
    }
    average(fine.k, fine, width, y0, k, 1);
    average(fine.reflectance, fine, width, y0, reflectance, 3);
    const arriving = fine.key.map((v, i) => v + fine.fill[i]!);
    average(arriving, fine, width, y0, light, 3);
    for (let y = y0; y < y1; y++)
      for (let x = 0; x < width; x++)
        surface[y * width + x] = fine.surface[(y - y0) * SIDE * fine.width + x * SIDE]!;
    onProgress?.(y1 / height);
  }
  const distance = new Map(
    plants.map((p) => [p, T.distanceToLit({ width, height, labels: labels.get(p)!, reflectance })]),
  );
  const shift =
    spec.light === 'neutral'
      ? null
      : T.sceneShift({ width, height, labels: labels.get('clean')!, reflectance, light, surface });
  return { spec, width, height, pictures, labels, distance, k, shift, planted };
}

/** The picture as a hand would leave it. The same touches for every plant of a scene. */
export function finishPicture(scene: TestScene, plant: Plant, finish: Finish): Float32Array {
  const rgb = scene.pictures.get(plant)!;
  const { width, height } = scene;
  const r = random(scene.spec.seed * 7919 + 13);
  const seed = r.whole(1, 1e6);
  if (finish === 'plain') return rgb;
  if (finish === 'jitter') return jitter(rgb, width, height, r.between(0.03, 0.06), r.between(5, 9), seed);
  return r.next() < 0.5 ? dabs(rgb, width, height, r.whole(3, 6)) : strokes(rgb, width, height, seed);
}

/** Picks things for the faults: shade that is replaced covers 10–35 % (opposite: 6–20 %) of the object area. */
function choose(spec: SceneSpec): { neutral: string[]; opposite: string[] } {
  const { scene, composed } = sceneOf(spec);
  const [w, h] = composed.size.map((v) => Math.round(v / 3)) as [number, number];
  const small = render(scene, w, h, { quality: 0.6 });
  const kinds = kindsOf(small);
  const shade = new Map<string, number>();
  let objects = 0;
  for (let i = 0; i < w * h; i++) {
    const thing = thingOf(small, i);
    if (thing === '' || SUPPORT.has(thing)) continue;
    objects++;
    if (kinds[i] === T.SHADE) shade.set(thing, (shade.get(thing) ?? 0) + 1);
  }
  const r = random(spec.seed * 31 + 7);
  const pick = (target: number, most: number) => {
    const taken: string[] = [];
    let area = 0;
    for (const [thing, a] of r.shuffle([...shade.entries()])) {
      if (area >= target * objects) break;
      if (a < 0.001 * w * h || area + a > most * objects) continue;
      taken.push(thing);
      area += a;
    }
    return taken;
  };
  return { neutral: pick(r.between(0.1, 0.3), 0.35), opposite: pick(r.between(0.06, 0.17), 0.2) };
}

function thingOf(p: Passes, i: number): string {
  const b = p.body[i]!;
  return b < 0 ? '' : p.things[b]!;
}

/** The kind of every sub-pixel. */
function kindsOf(p: Passes): Uint8Array {
  const out = new Uint8Array(p.width * p.height);
  for (let i = 0; i < out.length; i++) out[i] = kindOf(p, i);
  return out;
}

function kindOf(p: Passes, i: number): number {
  if (p.sky[i]) return T.SKY;
  if (p.emissive[i * 3]! + p.emissive[i * 3 + 1]! + p.emissive[i * 3 + 2]! > 0) return T.GLOW;
  if (p.mirrorShare[i]! > 1 / 3) return T.MIRROR;
  let drop = 0;
  for (let c = 0; c < 3; c++) drop += Math.log(1 + p.keyFull[i * 3 + c]! / p.fill[i * 3 + c]!) / 3;
  if (drop < T.SHADE_DROP) return T.UNLIT;
  if (p.k[i]! >= T.LIT_FROM) return T.LIT;
  return p.k[i]! <= T.SHADE_TO ? T.SHADE : T.HALF;
}

interface Swap {
  /** Shares of the keys' and the fill's mean colour, for s = geometric mean of K/A. */
  readonly s: number;
}

/** s of the swapped light: K' = s·A, A' = K/s has K'/A' = s²/q. */
function swapOf(spec: SceneSpec): Swap {
  const { kit } = sceneOf(spec);
  let sum = 0;
  for (let c = 0; c < 3; c++) {
    const k = kit.light.keys.reduce((t, key) => t + key[c]!, 0);
    sum += Math.log(k / (0.5 * (kit.light.fillUp[c]! + kit.light.fillDown[c]!)));
  }
  return { s: Math.exp(sum / 3) };
}

/**
 * Replaces the light on the planted things, at the correct luminance of every place:
 * neutral: the colour it has in full light, darkened; opposite: key and fill changed over, K' = s·A, A' = K/s.
 */
function plantInto(
  p: Passes,
  plant: 'neutral' | 'opposite',
  things: ReadonlySet<string>,
  swap: Swap,
): Float32Array {
  const out = Float32Array.from(p.colour);
  const right = new Float64Array(3);
  const wrong = new Float64Array(3);
  for (let i = 0; i < p.width * p.height; i++) {
    if (p.body[i]! < 0 || !things.has(thingOf(p, i))) continue;
    const k = p.k[i]!;
    for (let c = 0; c < 3; c++) {
      const j = i * 3 + c;
      const rho = p.reflectance[j]!;
      right[c] = rho * (p.key[j]! + p.fill[j]!);
      wrong[c] =
        plant === 'neutral'
          ? rho * (p.keyFull[j]! + p.fill[j]!)
          : rho * (k * swap.s * p.fill[j]! + p.keyFull[j]! / swap.s);
    }
    const scale = luminance(right) / luminance(wrong);
    for (let c = 0; c < 3; c++) {
      const j = i * 3 + c;
      out[j]! += (wrong[c]! * scale - right[c]!) * (1 - p.mirrorShare[i]!) * p.clear[i]!;
    }
  }
  return out;
}

function average(
  fine: Float32Array,
  p: Passes,
  width: number,
  y0: number,
  out: Float32Array,
  channels: number,
): void {
  for (let y = 0; y < p.height / SIDE; y++)
    for (let x = 0; x < width; x++)
      for (let c = 0; c < channels; c++) {
        let sum = 0;
        for (let b = 0; b < SIDE; b++)
          for (let a = 0; a < SIDE; a++)
            sum += fine[((y * SIDE + b) * p.width + x * SIDE + a) * channels + c]!;
        out[((y + y0) * width + x) * channels + c] = sum / (SIDE * SIDE);
      }
}

/** A pixel has a kind where at least three of its four sub-pixels agree in kind and thing. */
function packLabels(
  p: Passes,
  kinds: Uint8Array,
  plant: Plant,
  things: ReadonlySet<string>,
  width: number,
  y0: number,
  out: Uint8Array,
): void {
  const code = (i: number) => {
    const thing = thingOf(p, i);
    let v = kinds[i]!;
    if (thing !== '' && !SUPPORT.has(thing)) v |= T.OBJECT;
    if (p.clear[i]! < 0.85) v |= T.HAZED;
    if (things.has(thing) && (v & T.KIND) !== T.MIRROR) v |= plant === 'neutral' ? T.NEUTRAL : T.OPPOSITE;
    return v;
  };
  for (let y = 0; y < p.height / SIDE; y++)
    for (let x = 0; x < width; x++) {
      const i = y * SIDE * p.width + x * SIDE;
      const a = code(i);
      const b = code(i + 1);
      const c = code(i + p.width);
      const d = code(i + p.width + 1);
      // Three of four alike are found by the pair that must be among them.
      const v = a === b ? a : c === d ? c : T.EDGE;
      const alike = Number(a === v) + Number(b === v) + Number(c === v) + Number(d === v);
      out[(y + y0) * width + x] = alike >= 3 ? v : T.EDGE;
    }
}
