import { SRGB } from '../../src/colour/rgbSpaces.ts';
import type { BlendMode } from '../../src/layers/blend.ts';
import type { LayerNode, LayerStack, PaintedLayer } from '../../src/layers/stack.ts';

export const WIDTH = 96;
export const HEIGHT = 64;

type Paint = (x: number, y: number) => readonly [number, number, number, number];
type Rest = Partial<Pick<PaintedLayer, 'visible' | 'opacity' | 'blend' | 'operator'>>;

/** Noise 0…1 that is the same every time. */
export function noise(x: number, y: number, seed: number): number {
  let h = Math.imul(x + 1, 374761393) ^ Math.imul(y + 1, 668265263) ^ Math.imul(seed + 1, 2246822519);
  h = Math.imul(h ^ (h >>> 13), 1274126177);
  return ((h ^ (h >>> 16)) >>> 0) / 2 ** 32;
}

/** A layer painted place by place on a rectangle, codes and alpha 0…255. */
export function layer(
  name: string,
  [x, y, width, height]: readonly number[],
  paint: Paint,
  rest: Rest = {},
): PaintedLayer {
  const data = new Uint8Array(4 * width * height);
  for (let v = 0; v < height; v++)
    for (let u = 0; u < width; u++) data.set(paint(x + u, y + v).map(Math.round), 4 * (v * width + u));
  return {
    kind: 'layer',
    path: name,
    name,
    visible: true,
    opacity: 1,
    blend: 'normal',
    operator: 'source-over',
    x,
    y,
    raster: { width, height, channels: 4, depth: 8, data, space: SRGB },
    ...rest,
  };
}

const ALL = [0, 0, WIDTH, HEIGHT] as const;
const ground: Paint = (x, y) => [60 + 0.6 * x + 20 * noise(x, y, 1), 70 + y, 110 + 20 * noise(x, y, 2), 255];
const fog =
  (hue: number): Paint =>
  (_, y) => [150 + hue, 160, 180 - hue, 150 * (y / HEIGHT)];
const dab =
  (seed: number): Paint =>
  (x, y) => [200 * noise(x, y, seed), 40 + (seed % 5) * 30, 120, 255];
const shade: Paint = (x) => [120 + x, 150, 200, 255];

/**
 * Forty layers: 12 that show nothing, 5 that become one with the layer below, 2 sets of options. What can't be merged is
 * kept apart by effects: in every blend mode, so that no two painted layers are neighbours but those that are meant.
 */
export function plantedStack(): {
  stack: LayerStack;
  invisible: string[];
  mergeable: string[][];
  options: string[][];
} {
  const nodes: LayerNode[] = [];
  const invisible: string[] = [];
  const add = (one: PaintedLayer): string => {
    nodes.push(one);
    return one.path;
  };
  const forgotten = (one: PaintedLayer): void => {
    invisible.push(add(one));
  };
  const modes: BlendMode[] = [
    'multiply',
    'screen',
    'overlay',
    'soft-light',
    'color',
    'luminosity',
    'exclusion',
    'hard-light',
    'color-burn',
    'color-dodge',
    'saturation',
    'hue',
  ];
  const effect = (k: number): string =>
    add(
      layer(`light ${modes[k]}`, [8 * (k % 6), 4 * (k % 5), 44, 40], shade, {
        blend: modes[k],
        opacity: 0.5,
      }),
    );
  const place = (k: number): number[] => [6 + 14 * (k % 6), 8 + 20 * Math.floor(k / 6), 12, 14];

  forgotten(layer('old ground', ALL, (x, y) => [250 * noise(x, y, 9), 10, 10, 255]));
  forgotten(layer('first sketch', [10, 10, 60, 40], dab(3)));
  const mergeable: string[][] = [];
  const base = add(layer('ground', ALL, ground));
  mergeable.push([base, add(layer('shore', place(0), dab(4)))]);
  effect(0);
  forgotten(layer('empty', ALL, () => [0, 0, 0, 0]));
  mergeable.push([add(layer('boat', place(1), dab(5))), add(layer('mast', place(2), dab(6)))]);
  effect(1);
  forgotten(layer('white times', ALL, () => [255, 255, 255, 255], { blend: 'multiply' }));
  const nets = add(layer('nets', place(3), dab(7)));
  const poles = add(layer('poles', place(4), dab(8)));
  mergeable.push([nets, poles], [poles, add(layer('ropes', place(5), dab(9)))]);
  effect(2);
  forgotten(layer('black light', ALL, () => [0, 0, 0, 255], { blend: 'screen' }));
  forgotten(layer('nothing left', place(2), dab(10), { opacity: 0.002 }));
  const options: string[][] = [];
  options.push([
    add(layer('dusk one', ALL, fog(10))),
    add(layer('dusk two', ALL, fog(40), { visible: false })),
    add(layer('dusk three', ALL, fog(-20), { visible: false })),
  ]);
  effect(3);
  forgotten(layer('beside the picture', [200, 4, 20, 20], dab(11)));
  mergeable.push([add(layer('shed', place(6), dab(12))), add(layer('door', place(7), dab(13)))]);
  forgotten(layer('lighten none', place(7), () => [0, 0, 0, 255], { blend: 'lighten' }));
  effect(4);
  forgotten(layer('grey none', place(8), () => [0, 0, 0, 255], { blend: 'difference' }));
  effect(5);
  forgotten(layer('dodge none', place(9), () => [0, 0, 0, 255], { blend: 'color-dodge' }));
  effect(6);
  const lamp = [30, 10, 36, 30] as const;
  const glow =
    (red: number): Paint =>
    (x, y) => [red, 190, 90, 200 * Math.max(0, 1 - Math.hypot(x - 48, y - 25) / 15)];
  options.push([
    add(layer('lamp warm', lamp, glow(255), { blend: 'screen' })),
    add(layer('lamp cool', lamp, glow(120), { blend: 'screen', visible: false })),
  ]);
  effect(7);
  forgotten(layer('burn none', ALL, () => [255, 255, 255, 255], { blend: 'color-burn' }));
  add(layer('glint', [70, 50, 2, 2], () => [255, 250, 230, 255]));
  effect(8);
  forgotten(layer('faint lift', ALL, () => [255, 255, 255, 1], { opacity: 0.1 }));
  add(layer('gull', [80, 6, 6, 4], dab(14)));
  effect(9);
  effect(10);
  effect(11);
  return { stack: { width: WIDTH, height: HEIGHT, nodes }, invisible, mergeable, options };
}
