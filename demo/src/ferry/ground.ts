/** Mud, water and shores: height fields over x and the distance from the eye. */
import { type Body, cloud2, noise2 } from '../scene/index.ts';
import type { Materials } from './materials.ts';
import { smooth } from './numbers.ts';
import { at } from './parts.ts';

/** Height of the mud by x and the distance from the eye. */
export type Ground = (x: number, far: number) => number;

/** Middle of the near mud, as a distance from the eye. */
export const NEAR_MID = 20;
const NEAR_SIZE = [34, 30] as const;

/** Height of the mud by place (x, far): banks in front and at the left, a channel to the sheds. */
export function groundOf(seed: number, tide: number): Ground {
  return (x, far) => {
    const broad = cloud2(x / 6.5 + 3, far / 3.6, seed + 31, 3) - 0.5;
    const fine = cloud2(x / 1.5, far / 0.9, seed + 32, 3) - 0.5;
    const edge = 1.6 * (noise2(x / 2.2, 0.5, seed + 33) - 0.5);
    const front = 0.34 * smooth(9.6, 7.2, far + edge + 0.2 * x);
    const right = 0.42 * smooth(3.3, 6.2, x + 0.8 * edge - 0.28 * Math.abs(far - 11)) * smooth(17, 13, far);
    const left = 0.13 * smooth(-1.5, -5, x + 2 * edge - 0.12 * (far - 10)) * smooth(21, 14, far);
    const channel = 0.2 * Math.exp(-(((x - 1.6 - 0.05 * far) / (2.4 + 0.04 * far)) ** 2));
    return 0.5 * broad + 0.1 * fine + front + right + left - channel - 0.075 + tide;
  };
}

/** Water, the near mud, the flats behind it, a spit with trees, the far shore. */
export function groundBodies(m: Materials, ground: Ground, seed: number): Body[] {
  const bars = (x: number, z: number) => {
    const n = cloud2(x / 16, z / 5, seed + 34, 4) - 0.56;
    return n * 0.9 * smooth(0, 0.05, Math.abs(n)) - 0.02;
  };
  const hills = (x: number, z: number) => {
    const slow = cloud2(x / 70 + 9, 0.5, seed + 35, 3);
    const lumps = cloud2(x / 11, z / 14, seed + 36, 3);
    const rim = smooth(34, 12, Math.abs(z));
    const west = 0.35 + 0.65 * smooth(-150, 60, x);
    return rim * (15 * west * slow ** 1.4 + 3 * lumps * slow) - 0.5;
  };
  const tongue = (x: number, z: number) => {
    const end = smooth(-22, 14, x + 14 * (cloud2(z / 9, 0.5, seed + 37, 2) - 0.5));
    const trees = cloud2(x / 3.2, z / 4, seed + 38, 3);
    const rim = smooth(9, 3, Math.abs(z));
    return rim * end * (0.7 + 3.4 * smooth(0.42, 0.75, trees) * smooth(-4, 30, x)) - 0.3;
  };
  return [
    { shape: { kind: 'plane' }, material: m.water!, thing: 'water', shadow: false },
    {
      shape: {
        kind: 'terrain',
        size: NEAR_SIZE,
        cells: [300, 260],
        height: (x, z) => ground(x, -z + NEAR_MID),
      },
      material: { ...m.mud!, mirror: { ...m.mud!.mirror!, cover: m.mud!.mirror!.cover! } },
      at: at(0, 0, NEAR_MID),
      thing: 'mud',
      shadow: false,
    },
    {
      shape: { kind: 'terrain', size: [170, 80], cells: [240, 160], height: bars },
      material: { ...m.mud!, mirror: { ...m.mud!.mirror!, cover: () => 0.7 } },
      at: at(0, 0, 76),
      thing: 'flats',
      shadow: false,
    },
    {
      shape: { kind: 'terrain', size: [120, 24], cells: [240, 24], height: tongue },
      material: m.spit!,
      at: at(38, 0, 105),
      thing: 'spit',
      shadow: false,
    },
    {
      shape: { kind: 'terrain', size: [460, 80], cells: [400, 32], height: hills },
      material: m.shore!,
      at: at(0, 0, 225),
      thing: 'far shore',
      shadow: false,
    },
  ];
}
