import {
  type Intent,
  linearToSrgb,
  mapToGamut,
  OPEN_INTENT,
  oklabToLinear,
  oklchToOklab,
  type Raster,
  SRGB,
  type Triple,
} from '@halflight/engine';

/** A small picture with a planted fault, and what was decided for it. */
export interface Planted {
  readonly name: string;
  readonly raster: Raster;
  readonly intent: Intent;
}

const WIDTH = 90;
const HEIGHT = 60;

/** OKLCh of a place in shares of width and height. */
type Painter = (x: number, y: number) => Triple;

/** Sky over water with a dark shore and a lamp, in flat strokes: the ground of all faults. */
const shore =
  (shift: Partial<{ L: number; hue: number; chroma: number; spread: number }> = {}): Painter =>
  (x, y) => {
    const { L = 0, hue = 260, chroma = 1, spread = 1 } = shift;
    const stroke = Math.sin(21 * x + 13 * Math.sin(9 * y)) * Math.cos(17 * y);
    if ((x - 0.7) ** 2 + (y - 0.52) ** 2 < 0.0012) return [0.85, 0.14, 72];
    if (y > 0.55 && y < 0.72 && x < 0.6) return [0.22 + L + 0.03 * stroke, 0.03 * chroma, hue + 20];
    const depth = y < 0.55 ? y : 1.1 - y;
    return [
      0.42 + L + spread * 0.5 * (depth - 0.25) + 0.02 * stroke,
      0.07 * chroma,
      hue + 14 * stroke + 30 * depth,
    ];
  };

/** A part of the shore in other colours. */
const over =
  (
    ground: Painter,
    where: (x: number, y: number) => boolean,
    change: (lch: Triple, x: number, y: number) => Triple,
  ): Painter =>
  (x, y) => {
    const own = ground(x, y);
    return where(x, y) ? change(own, x, y) : own;
  };

const mood = (axes: NonNullable<Intent['mood']>['axes']): Intent => ({ ...OPEN_INTENT, mood: { axes } });
const plan: Intent = {
  ...OPEN_INTENT,
  hue: { families: [{ hue: 265, width: 60 }], accent: { hue: 70, width: 40 } },
};

/** Twelve pictures, each with a fault of its own or two. */
export function planted(): Planted[] {
  const rows: readonly (readonly [string, Painter, Intent])[] = [
    [
      'a green sky corner',
      over(
        shore(),
        (x, y) => x < 0.4 && y < 0.4,
        ([L, C]) => [L, C + 0.04, 150],
      ),
      plan,
    ],
    [
      'every hue in the water',
      over(
        shore(),
        (_, y) => y > 0.72,
        ([L, C], x) => [L, C + 0.05, 360 * x],
      ),
      plan,
    ],
    [
      'many hues, no plan',
      over(
        shore(),
        () => true,
        ([L, C], x) => [L, C + 0.03, 330 * x],
      ),
      { ...OPEN_INTENT, hue: { families: [], limit: 3 } },
    ],
    [
      'closed darks',
      over(
        shore(),
        (_, y) => y > 0.5,
        ([L, C, h]) => [0.25 * L - 0.06, 0.4 * C, h],
      ),
      OPEN_INTENT,
    ],
    [
      'closed lights',
      over(
        shore(),
        (_, y) => y < 0.4,
        (_, x) => [0.985 + 0.02 * x, 0.004, 100],
      ),
      OPEN_INTENT,
    ],
    [
      'colours at the edge',
      over(
        shore(),
        (x) => x > 0.4,
        ([L, , h]) => [L, 0.4, h],
      ),
      OPEN_INTENT,
    ],
    ['too warm', shore({ hue: 50 }), mood({ warmCool: { at: -0.6, tolerance: 0.2 } })],
    ['too light', shore({ L: 0.25 }), mood({ key: { at: 30, tolerance: 6 } })],
    [
      'too heavy and too close',
      shore({ L: -0.1, spread: 0.3 }),
      mood({ heavyLight: { at: 0.6, tolerance: 0.3 }, contrast: { at: 45, tolerance: 8 } }),
    ],
    [
      'too lively',
      shore({ chroma: 2, spread: 1.8 }),
      mood({ activePassive: { at: 0, tolerance: 0.1 }, warmCool: { at: -0.6, tolerance: 0.2 } }),
    ],
    ['values too close', shore({ spread: 0.05, L: 0.05 }), mood({ contrast: { at: 70, tolerance: 6 } })],
    [
      'warm, light, and strays',
      over(
        shore({ hue: 40, L: 0.2 }),
        (x) => x > 0.7,
        ([L, C]) => [L, C + 0.05, 140],
      ),
      {
        ...mood({ warmCool: { at: -0.4, tolerance: 0.2 }, key: { at: 40, tolerance: 6 } }),
        hue: { families: [{ hue: 55, width: 70 }] },
      },
    ],
  ];
  return rows.map(([name, painter, intent]) => ({ name, raster: paint(painter), intent }));
}

function paint(at: Painter): Raster {
  const data = new Uint8Array(3 * WIDTH * HEIGHT);
  for (let y = 0, i = 0; y < HEIGHT; y++)
    for (let x = 0; x < WIDTH; x++, i += 3) {
      const [L, C, h] = at((x + 0.5) / WIDTH, (y + 0.5) / HEIGHT);
      const rgb = mapToGamut(oklabToLinear(oklchToOklab([Math.max(0, L), Math.max(0, C), h])), SRGB);
      for (let c = 0; c < 3; c++)
        data[i + c] = Math.round(255 * Math.min(1, Math.max(0, linearToSrgb(rgb[c]))));
    }
  return { width: WIDTH, height: HEIGHT, channels: 3, depth: 8, data, space: SRGB };
}
