/** Relighting held against the scene maker: the same scene rendered in its own light, pixel by pixel. */
import {
  ciede2000,
  examine,
  linearToCielab,
  OPEN_INTENT,
  propose,
  readingInput,
  readyRecipe,
  runToEnd,
  SRGB,
  takeCensus,
  type View,
  viewEditor,
  viewsOf,
} from '@halflight/engine';
import { beforeAll, expect, test } from 'vitest';
import {
  type Body,
  luminance,
  type Passes,
  plain,
  type Rgb,
  render,
  type Scene,
} from '../../src/scene/index.ts';

const WIDTH = 330;
const HEIGHT = 220;
const KEY: Rgb = [0.95, 0.62, 0.33];
const FILL: Rgb = [0.13, 0.18, 0.32];
const PAINTS: readonly Rgb[] = [
  [0.5, 0.48, 0.46],
  [0.55, 0.3, 0.2],
  [0.25, 0.4, 0.3],
  [0.6, 0.55, 0.35],
  [0.28, 0.32, 0.5],
  [0.45, 0.25, 0.35],
];
/** Things whose shade is painted as their lit colour and black. */
const PLANTED = new Set(['block-1', 'block-4', 'block-8']);

/** Blocks on a floor in low warm light under a cool sky. */
function blocks(): Scene {
  const bodies: Body[] = [
    {
      shape: { kind: 'plane' },
      material: { name: 'floor', pigment: plain([0.42, 0.4, 0.38]) },
      thing: 'floor',
    },
    {
      shape: { kind: 'box', size: [40, 14, 0.4] },
      at: [0, 7, -5],
      material: { name: 'wall', pigment: plain([0.5, 0.47, 0.42]) },
      thing: 'wall',
    },
  ];
  for (let i = 0; i < 10; i++)
    bodies.push({
      shape: { kind: 'box', size: [1.1, 1 + 0.25 * (i % 3), 1.1] },
      at: [((i % 5) - 2) * 1.9, 0.5 + 0.125 * (i % 3), i < 5 ? 0.6 : -2],
      turn: [0, 20 + 31 * i, 0],
      material: { name: `paint-${i}`, pigment: plain(PAINTS[i % PAINTS.length]!) },
      thing: `block-${i}`,
    });
  return {
    camera: { eye: [0.4, 3.2, 9.5], target: [0, 0.5, -0.6], fov: 33 },
    bodies,
    lights: [{ kind: 'sun', towards: [-0.75, 0.6, 0.45], colour: KEY, size: 2 }],
    fill: { up: FILL, down: FILL },
    sky: (_x, _y, _z, out) => out.set(FILL),
  };
}

let passes: Passes;
let faulty: View;
let edited: Float32Array;
let kinds: string[];

beforeAll(() => {
  passes = render(blocks(), WIDTH, HEIGHT, { quality: 0.3 });
  const rgb = Float32Array.from(passes.colour);
  for (let p = 0; p < WIDTH * HEIGHT; p++) {
    if (!isPlanted(p)) continue;
    const lit = at(passes.reflectance, p).map(
      (v, c) => v * (passes.keyFull[3 * p + c]! + passes.fill[3 * p + c]!),
    );
    const dark = luminance(at(passes.colour, p)) / luminance(lit as unknown as Rgb);
    rgb.set(
      lit.map((v) => v * dark),
      3 * p,
    );
  }
  faulty = { width: WIDTH, height: HEIGHT, rgb, alpha: null, scale: 1 };
  const views = viewsOf(faulty);
  const picture = {
    name: 'blocks',
    width: WIDTH,
    height: HEIGHT,
    depth: 8,
    profile: 'sRGB',
    tagged: true,
  } as const;
  const census = takeCensus(rasterOf(faulty));
  const input = readingInput({ picture, census, views, intent: OPEN_INTENT });
  const { recipe } = runToEnd(propose({ input, examination: examine(input) }));
  const steps = recipe.steps.filter((step) => step.kind === 'relight');
  kinds = steps.map((step) => step.kind);
  edited = new Float32Array(rgb.length);
  viewEditor(readyRecipe({ ...recipe, steps }, faulty), faulty, SRGB)(0, HEIGHT, edited);
});

function at(pass: Float32Array, p: number): Rgb {
  return [pass[3 * p]!, pass[3 * p + 1]!, pass[3 * p + 2]!];
}

function isPlanted(p: number): boolean {
  const body = passes.body[p]!;
  return body >= 0 && PLANTED.has(passes.things[body]!) && passes.k[p]! <= 0.2;
}

/** The picture as 8-bit sRGB (IEC 61966-2-1). */
function rasterOf({ rgb }: View) {
  const code = (v: number): number => 255 * (v <= 0.0031308 ? 12.92 * v : 1.055 * v ** (1 / 2.4) - 0.055);
  const data = Uint8Array.from(rgb, (v) => Math.round(code(Math.min(1, Math.max(0, v)))));
  return { width: WIDTH, height: HEIGHT, channels: 3, depth: 8, data, space: SRGB } as const;
}

/** Mean CIEDE2000 against the render in its own light. */
function error(rgb: Float32Array, counts: (p: number) => boolean): number {
  let [sum, n] = [0, 0];
  for (let p = 0; p < WIDTH * HEIGHT; p++) {
    if (!counts(p)) continue;
    sum += ciede2000(linearToCielab(at(rgb, p)), linearToCielab(at(passes.colour, p)));
    n++;
  }
  return sum / n;
}

test('of the error of planted shade at most 35 % is left, pixel by pixel', () => {
  const before = error(faulty.rgb, isPlanted);
  expect(kinds.length).toBeGreaterThan(0);
  expect(before).toBeGreaterThan(4);
  expect(error(edited, isPlanted)).toBeLessThan(0.35 * before);
});

test('what was right stays right: nothing a person sees, on the mean', () => {
  expect(error(edited, (p) => !isPlanted(p))).toBeLessThan(0.5);
});
