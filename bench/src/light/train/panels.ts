/**
 * Flat pictures for the training: fields of pigment in rows, each half in the key and half in the fill, as in
 * illustrations that know light but no space. Shade is planted as in the rendered scenes; some lie behind air.
 */
import { hash01, type Random, type Rgb, random } from '@halflight/demo/scene';
import type { LightIntent } from '@halflight/engine';
import { jitter } from '../finish.ts';
import { drawLight, type LightKind, type LightSet } from '../kit.ts';
import * as T from '../truth.ts';

export interface PanelPicture {
  readonly name: string;
  readonly plant: 'clean' | 'neutral' | 'opposite';
  readonly finish: 'plain' | 'jitter';
  readonly width: number;
  readonly height: number;
  readonly rgb: Float32Array;
  readonly labels: Uint8Array;
  readonly k: Uint8Array;
  /** Log-chromaticity, lit minus shade. */
  readonly shift: { readonly x: number; readonly y: number };
  readonly light: LightIntent;
}

const KINDS: readonly LightKind[] = ['warm', 'cool', 'stage'];
const PLANTS = ['clean', 'neutral', 'opposite'] as const;
const SETS = 60;
const WIDTH = 720;

/** All of them, one at a time: every set clean and with both faults. */
export function* panelPictures(): Generator<PanelPicture> {
  for (let i = 0; i < SETS; i++) for (const plant of PLANTS) yield panelsOf(i, plant);
}

interface Field {
  readonly pigment: Rgb;
  /** Border of light and shade: direction, place, width of the half tone, −1…1 of the field's half size. */
  readonly angle: number;
  readonly at: number;
  readonly soft: number;
  readonly planted: boolean;
}

function panelsOf(i: number, plant: PanelPicture['plant']): PanelPicture {
  const r = random(9001 + 13 * i);
  const light = drawLight(KINDS[i % KINDS.length]!, r);
  const columns = r.whole(3, 7);
  const rows = r.whole(2, 5);
  const height = Math.round(WIDTH * r.between(0.5, 0.75));
  const sky = r.next() < 0.5 ? Math.round(0.25 * height) : 0;
  const veil = sky > 0 ? r.between(0.15, 0.5) : 0;
  const air: Rgb = [r.between(0.3, 0.6), r.between(0.4, 0.6), r.between(0.5, 0.8)];
  const straight = r.next() < 0.4;
  const fields = Array.from({ length: columns * rows }, () => fieldOf(r, straight));
  const fill = light.fillUp.map((v, c) => 0.5 * (v + light.fillDown[c]!));
  const key = light.keys[0]!;
  const q = key.map((v, c) => v / fill[c]!);
  const s2 = Math.cbrt(q[0]! * q[1]! * q[2]!) ** 2;

  const rgb = new Float32Array(WIDTH * (height + sky) * 3);
  const labels = new Uint8Array(WIDTH * (height + sky)).fill(T.SKY);
  const ks = new Uint8Array(labels.length);
  for (let y = 0; y < height + sky; y++)
    for (let x = 0; x < WIDTH; x++) {
      const at = y * WIDTH + x;
      if (y < sky) {
        for (let c = 0; c < 3; c++) rgb[3 * at + c] = air[c]!;
        continue;
      }
      const u = (x / WIDTH) * columns;
      const v = ((y - sky) / height) * rows;
      const field = fields[Math.floor(v) * columns + Math.floor(u)]!;
      const along = (2 * (u % 1) - 1) * Math.cos(field.angle) + (2 * (v % 1) - 1) * Math.sin(field.angle);
      const k = Math.min(1, Math.max(0, 0.5 + (along - field.at) / field.soft));
      const touch = 1 + 0.08 * (hash01(x >> 1, y >> 1, 3, i) - 0.5);
      const faulty = plant !== 'clean' && field.planted;
      const arriving = arrivingAt(k, key, fill, q, s2, faulty ? plant : 'clean');
      for (let c = 0; c < 3; c++)
        rgb[3 * at + c] = (1 - veil) * field.pigment[c]! * arriving[c]! * touch + veil * air[c]!;
      ks[at] = Math.round(255 * k);
      const what = k >= T.LIT_FROM ? T.LIT : k <= T.SHADE_TO ? T.SHADE : T.HALF;
      labels[at] = what | T.OBJECT | (faulty ? (plant === 'neutral' ? T.NEUTRAL : T.OPPOSITE) : 0);
    }
  const finish = i % 3 === 2 ? 'jitter' : 'plain';
  const full = q.map((v) => Math.log(1 + v));
  return {
    name: `p${String(i + 1).padStart(2, '0')}-panels-${light.kind}.${plant}.${finish}`,
    plant,
    finish,
    width: WIDTH,
    height: height + sky,
    rgb: finish === 'jitter' ? jitter(rgb, WIDTH, height + sky, r.between(0.03, 0.06), 6, i + 1) : rgb,
    labels,
    k: ks,
    shift: {
      x: (full[0]! - full[1]!) / Math.SQRT2,
      y: (full[0]! + full[1]! - 2 * full[2]!) / Math.sqrt(6),
    },
    light: { kind: 'surface', lit: key.map((v, c) => v + fill[c]!) as never, shade: fill as never },
  };
}

function fieldOf(r: Random, straight: boolean): Field {
  const grey = r.next() < 0.25;
  const level = r.between(0.08, 0.7);
  const pigment: Rgb = grey
    ? [level, level, level]
    : [r.between(0.06, 0.75), r.between(0.06, 0.75), r.between(0.06, 0.75)];
  const even = (pigment[0] + pigment[1] + pigment[2]) / 3;
  // Half way to grey: paints and building stuffs, no lights.
  const dull = grey ? 0 : r.between(0.2, 0.7);
  return {
    pigment: pigment.map((v) => v + dull * (even - v)) as unknown as Rgb,
    angle: straight ? 0 : r.between(0, 2 * Math.PI),
    at: r.between(-0.4, 0.4),
    soft: r.next() < 0.6 ? 0.02 : r.between(0.2, 0.9),
    planted: r.next() < 0.25,
  };
}

/** Light at a place that so much of the key reaches: right, with the lit colour's shade, or swapped. */
function arrivingAt(
  k: number,
  key: LightSet['fillUp'],
  fill: readonly number[],
  q: readonly number[],
  s2: number,
  plant: PanelPicture['plant'],
): number[] {
  const right = fill.map((a, c) => a + k * key[c]!);
  if (plant === 'clean') return right;
  const mean = Math.cbrt(right[0]! * right[1]! * right[2]!);
  const wanted =
    plant === 'neutral'
      ? fill.map((a, c) => a + key[c]!)
      : fill.map((a, c) => a * q[c]! * (1 + (k * s2) / q[c]!));
  const is = Math.cbrt(wanted[0]! * wanted[1]! * wanted[2]!);
  return wanted.map((v) => (v * mean) / is);
}
