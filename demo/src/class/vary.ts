/** Another hand at the same assignment: a painted picture cropped, turned to other colours, and given faults. */
import { type Corners, homography, project } from '@halflight/engine';
import sharp from 'sharp';

/** What a hand does to the painting. Amounts are 0 where left out. */
export interface Hand {
  /** Version of the ferry landing that it starts from. */
  readonly version: 1 | 2 | 3 | 4 | 5;
  /** Part of the picture that is shown, in shares. */
  readonly crop?: readonly [x: number, y: number, width: number, height: number];
  readonly mirrored?: boolean;
  /** All hues turned, degrees. */
  readonly turn?: number;
  /** Factor on chroma. */
  readonly chroma?: number;
  /** Factor on value, and what is added to it (0…255). */
  readonly value?: readonly [gain: number, offset: number];
  /** Grey laid over it, 0…1. */
  readonly veil?: number;
  /** Shade that loses its colour: 1 = below middle grey nothing is left. */
  readonly greyShade?: number;
  /** Edges drawn over and over. */
  readonly fussy?: boolean;
}

/** Code values of a picture, sRGB, three channels. */
export interface Codes {
  readonly data: Uint8Array;
  readonly width: number;
  readonly height: number;
}

/** The picture of a hand. `source` is the painted version that it starts from. */
export async function vary(source: string, hand: Hand, longSide: number): Promise<Codes> {
  const { width = 0, height = 0 } = await sharp(source).metadata();
  const [x, y, w, h] = hand.crop ?? [0, 0, 1, 1];
  let pipe = sharp(source)
    .extract({
      left: Math.floor(x * width),
      top: Math.floor(y * height),
      width: Math.floor(w * width),
      height: Math.floor(h * height),
    })
    .resize(longSide, longSide, { fit: 'inside' });
  if (hand.mirrored) pipe = pipe.flop();
  if (hand.fussy) pipe = pipe.sharpen({ sigma: 1.2, m1: 3, m2: 6 });
  pipe = pipe.modulate({ saturation: hand.chroma ?? 1, hue: Math.round(hand.turn ?? 0) });
  if (hand.value) pipe = pipe.linear(hand.value[0], hand.value[1]);
  const { data, info } = await pipe.removeAlpha().raw().toBuffer({ resolveWithObject: true });
  const codes = { data: new Uint8Array(data), width: info.width, height: info.height };
  if (hand.veil) lay(codes.data, hand.veil);
  if (hand.greyShade) greyShade(codes.data, hand.greyShade);
  return codes;
}

/** Grey of a dull evening over everything. */
function lay(data: Uint8Array, amount: number): void {
  for (let i = 0; i < data.length; i++) data[i] = Math.round((1 - amount) * data[i] + amount * 128);
}

/** Takes colour out of what is dark. */
function greyShade(data: Uint8Array, amount: number): void {
  for (let i = 0; i < data.length; i += 3) {
    const grey = 0.2126 * data[i] + 0.7152 * data[i + 1] + 0.0722 * data[i + 2];
    const share = amount * Math.min(1, Math.max(0, (128 - grey) / 64));
    for (let c = 0; c < 3; c++) data[i + c] = Math.round(data[i + c] + share * (grey - data[i + c]));
  }
}

/** Table under a photographed sheet, code values. */
const TABLE = [122, 96, 74] as const;

/** The picture as paper on a table under a lamp, photographed from the side. */
export function photograph({ data, width, height }: Codes): Codes {
  const [w, h] = [Math.round(1.3 * width), Math.round(1.35 * height)];
  const sheet: Corners = [
    [0, 0],
    [width, 0],
    [width, height],
    [0, height],
  ];
  const lying: Corners = [
    [0.13 * w, 0.11 * h],
    [0.9 * w, 0.15 * h],
    [0.86 * w, 0.88 * h],
    [0.1 * w, 0.83 * h],
  ];
  const back = homography(lying, sheet);
  const out = new Uint8Array(3 * w * h);
  for (let y = 0, i = 0; y < h; y++)
    for (let x = 0; x < w; x++, i += 3) {
      const lamp = 1.08 - 0.22 * (x / w) - 0.1 * (y / h);
      const [u, v] = back ? project(back, x, y) : [-1, -1];
      const inside = u >= 0 && v >= 0 && u < width - 1 && v < height - 1;
      for (let c = 0; c < 3; c++) {
        const code = inside ? between(data, width, u, v, c) : TABLE[c];
        out[i + c] = Math.min(255, Math.round(lamp * code));
      }
    }
  return { data: out, width: w, height: h };
}

function between(data: Uint8Array, width: number, u: number, v: number, c: number): number {
  const [x, y] = [Math.floor(u), Math.floor(v)];
  const [fx, fy] = [u - x, v - y];
  const at = (dx: number, dy: number): number => data[3 * ((y + dy) * width + x + dx) + c];
  return (1 - fy) * ((1 - fx) * at(0, 0) + fx * at(1, 0)) + fy * ((1 - fx) * at(0, 1) + fx * at(1, 1));
}

/** The picture on the screen of a telephone held upright: flat margins with a few signs in them. */
export function screenshot({ data, width, height }: Codes): Codes {
  const h = Math.round(1.5 * width);
  const top = Math.round((h - height) / 2.6);
  const out = new Uint8Array(3 * width * h).fill(24);
  out.set(data, 3 * width * top);
  const dot = (x0: number, y0: number, w: number, tall: number): void => {
    for (let y = y0; y < y0 + tall; y++) out.fill(214, 3 * (y * width + x0), 3 * (y * width + x0 + w));
  };
  const unit = Math.round(width / 24);
  dot(unit, unit, 2 * unit, Math.round(unit / 2));
  dot(width - 3 * unit, unit, 2 * unit, Math.round(unit / 2));
  for (let k = 0; k < 4; k++) dot((3 + 5 * k) * unit, h - 3 * unit, 2 * unit, unit);
  return { data: out, width, height: h };
}
