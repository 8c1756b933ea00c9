import { luminance, type Passes, type Rgb, render } from '@halflight/demo/scene';
import {
  ciede2000,
  guideOf,
  lightParts,
  linearToCielab,
  type Recipe,
  readLight,
  readyRecipe,
  rowsAt,
  SITUATIONS,
  type Situation,
  turnSteps,
  type View,
} from '@halflight/engine';
import type { Figure } from '../figure.ts';
import { SCENES, sceneOf } from '../light/scenes.ts';

const WIDTH = 420;
const HEIGHT = 280;
/** Every so many pixels are compared. */
const STRIDE = 7;
/** Lights that the pictures are painted in, and lights they are turned to: places in the table. */
const FROM = [0, 4, 8];
const TO = [1, 2, 5, 6, 9, 10];

/** Errors of one way of turning the light: medians of CIEDE2000 at equal luminance. */
interface Errors {
  readonly lit: number;
  readonly shade: number;
}

/**
 * The light sheet on pairs of one scene under two lights, against the best single filter.
 *
 * A render keeps what arrives from the key and from the fill apart, so that its picture in any other light of the same
 * strength is known exactly. The best filter is three gains found with the true picture at hand, which nobody has.
 */
export async function lightSheetRows(): Promise<Figure[]> {
  const all: Record<'filter' | 'declared' | 'read' | 'readTinted' | 'none', Errors[]> = {
    filter: [],
    declared: [],
    read: [],
    readTinted: [],
    none: [],
  };
  const scenes = SCENES.filter((s) => !s.haze && s.light !== 'mixed');
  for (const spec of scenes) {
    const { scene, kit } = sceneOf(spec);
    const passes = render(scene, WIDTH, HEIGHT);
    const own = { key: kit.light.keys[0]!, fill: kit.light.fillUp };
    for (const from of FROM) {
      const old = SITUATIONS[from];
      const view = pictureIn(passes, own, old);
      const parts = {
        declared: lightParts(readLight(view, { light: { kind: 'situation', name: old.name } })),
        read: lightParts(readLight(view)),
      };
      if (!parts.declared) continue;
      const places = placesOf(passes, view);
      for (const to of TO) {
        const truth = pictureIn(passes, own, SITUATIONS[to]);
        const judge = judgeFor(view, truth, places);
        const turned = (which: 'declared' | 'read'): Float32Array | null => {
          const found = parts[which];
          const light = which === 'declared' ? ({ kind: 'situation', name: old.name } as const) : undefined;
          return found && edited(view, turnSteps(found, light, SITUATIONS[to]));
        };
        all.none.push(judge(view.rgb));
        all.filter.push(bestFilter(judge, view.rgb));
        all.declared.push(judge(turned('declared')!));
        const read = turned('read');
        if (read) {
          all.read.push(judge(read));
          all.readTinted.push(bestFilter(judge, read));
        }
      }
    }
    console.error(`  ${spec.name}: ${told(all)}`);
  }
  const row = (what: string, errors: readonly Errors[], goal: boolean): Figure[] =>
    (['lit', 'shade', 'both'] as const).map((part) => ({
      what: `${what}, ${part === 'lit' ? 'lit places' : part === 'shade' ? 'shade' : 'mean of both'}`,
      value: meanOf(errors, part),
      unit: 'ΔE00',
      reference: { what: 'the best single filter', value: meanOf(all.filter, part) },
      ...(goal ? { goal: 1 } : {}),
    }));
  return [
    ...row('light sheet, present light declared', all.declared, true),
    ...row('light sheet, light read, tint of the whole by eye', all.readTinted, true),
    ...row('light sheet, light read', all.read, false),
    ...row('the picture as it is', all.none, false),
  ];
}

function told(all: Record<string, readonly Errors[]>): string {
  return Object.entries(all)
    .map(
      ([name, errors]) => `${name} ${meanOf(errors, 'lit').toFixed(2)}/${meanOf(errors, 'shade').toFixed(2)}`,
    )
    .join(', ');
}

function meanOf(errors: readonly Errors[], part: 'lit' | 'shade' | 'both'): number {
  const of = (e: Errors): number => (part === 'both' ? (e.lit + e.shade) / 2 : e[part]);
  return errors.reduce((sum, e) => sum + of(e), 0) / errors.length;
}

/** The scene's own geometry and contrast in the colours of a situation: ρ(key·K′/K + fill·A′/A). */
function pictureIn(
  passes: Passes,
  own: { readonly key: Rgb; readonly fill: Rgb },
  { key, fill }: Situation,
): View {
  const rgb = new Float32Array(3 * WIDTH * HEIGHT);
  for (let p = 0; p < WIDTH * HEIGHT; p++)
    for (let c = 0; c < 3; c++) {
      const i = 3 * p + c;
      const arrives =
        (passes.key[i]! * key[c]! * luminance(own.key)) / own.key[c]! +
        (passes.fill[i]! * fill[c]! * luminance(own.fill)) / own.fill[c]!;
      rgb[i] = passes.sky[p] ? passes.colour[i]! : Math.max(1e-5, passes.reflectance[i]! * arrives);
    }
  return { width: WIDTH, height: HEIGHT, rgb, alpha: null, scale: 1 };
}

interface Places {
  readonly lit: readonly number[];
  readonly shade: readonly number[];
}

/** Lit from 0.35 of the key on, shade up to 0.2, as in the light bench; sky, mirrors and lamps are left out. */
function placesOf(passes: Passes, { rgb }: View): Places {
  const lit: number[] = [];
  const shade: number[] = [];
  for (let p = 0; p < WIDTH * HEIGHT; p += STRIDE) {
    if (passes.sky[p] || passes.mirrorShare[p]! > 0.1 || passes.emissive[3 * p]! > 0) continue;
    if (luminance([rgb[3 * p]!, rgb[3 * p + 1]!, rgb[3 * p + 2]!]) < 0.002) continue;
    const at = (pass: Float32Array): number => luminance([pass[3 * p]!, pass[3 * p + 1]!, pass[3 * p + 2]!]);
    if (at(passes.keyFull) < 0.5 * at(passes.fill)) continue;
    if (passes.k[p]! >= 0.35) lit.push(p);
    else if (passes.k[p]! <= 0.2) shade.push(p);
  }
  return { lit, shade };
}

type Judge = (rgb: Float32Array, gains?: readonly number[], every?: number) => Errors;

function judgeFor(view: View, truth: View, places: Places): Judge {
  const labAt = (rgb: Float32Array, p: number, gains?: readonly number[]) => {
    const own = luminance([view.rgb[3 * p]!, view.rgb[3 * p + 1]!, view.rgb[3 * p + 2]!]);
    const colour: [number, number, number] = [
      rgb[3 * p]! * (gains?.[0] ?? 1),
      rgb[3 * p + 1]! * (gains?.[1] ?? 1),
      rgb[3 * p + 2]! * (gains?.[2] ?? 1),
    ];
    const scale = own / luminance(colour);
    return linearToCielab([colour[0] * scale, colour[1] * scale, colour[2] * scale]);
  };
  const wanted = new Map([...places.lit, ...places.shade].map((p) => [p, labAt(truth.rgb, p)]));
  const median = (
    of: readonly number[],
    rgb: Float32Array,
    gains: readonly number[] | undefined,
    every: number,
  ) => {
    const off: number[] = [];
    for (let k = 0; k < of.length; k += every)
      off.push(ciede2000(wanted.get(of[k]!)!, labAt(rgb, of[k]!, gains)));
    return off.sort((a, b) => a - b)[off.length >> 1] ?? 0;
  };
  return (rgb, gains, every = 1) => ({
    lit: median(places.lit, rgb, gains, every),
    shade: median(places.shade, rgb, gains, every),
  });
}

/** The gains that bring a picture nearest to the truth on the mean of both medians: a grid, then ever finer. */
function bestFilter(judge: Judge, rgb: Float32Array): Errors {
  const cost = (r: number, b: number, every: number): number => {
    const { lit, shade } = judge(rgb, [Math.exp(r), 1, Math.exp(b)], every);
    return lit + shade;
  };
  let best = { r: 0, b: 0, cost: Number.POSITIVE_INFINITY };
  for (let step = 0.4, reach = 3; step > 0.01; step /= 2, reach = 1) {
    const { r, b } = best;
    for (let i = -reach; i <= reach; i++)
      for (let j = -reach; j <= reach; j++) {
        const found = cost(r + i * step, b + j * step, 9);
        if (found < best.cost) best = { r: r + i * step, b: b + j * step, cost: found };
      }
  }
  return judge(rgb, [Math.exp(best.r), 1, Math.exp(best.b)]);
}

/** The steps on every pixel, before gamut mapping: the truth is not mapped either. */
function edited(view: View, steps: Recipe['steps']): Float32Array {
  const ready = readyRecipe({ schema: 'halflight/recipe@1', steps }, view);
  const rows = ready.areas.map((fit) => rowsAt(fit, WIDTH, HEIGHT));
  const lines = rows.map(() => new Float32Array(WIDTH));
  const guide = guideOf(view);
  const out = Float32Array.from(view.rgb);
  const one = new Float64Array(3);
  for (let y = 0; y < HEIGHT; y++) {
    rows.forEach((row, k) => {
      row(guide.subarray(3 * y * WIDTH, 3 * (y + 1) * WIDTH), y, lines[k]!);
    });
    for (let x = 0; x < WIDTH; x++) {
      const at = 3 * (y * WIDTH + x);
      for (let c = 0; c < 3; c++) one[c] = out[at + c]!;
      ready.edit(
        one,
        0,
        lines.map((line) => line[x]!),
        0,
      );
      out.set(one, at);
    }
  }
  return out;
}
