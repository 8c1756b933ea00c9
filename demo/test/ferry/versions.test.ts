import { lightness } from '@halflight/engine';
import { converter } from 'culori';
import { beforeAll, describe, expect, it } from 'vitest';
import { layVeil, plant } from '../../src/ferry/faults.ts';
import { layAir } from '../../src/ferry/light.ts';
import { type Painted, paintFerryLanding, paintVersions, SEED } from '../../src/ferry/paint.ts';
import { placeOf } from '../../src/ferry/place.ts';
import { cast, studyOf, studySize } from '../../src/ferry/study.ts';
import { VERSIONS, versionOf } from '../../src/ferry/versions.ts';

const W = 480;
const H = 300;
const painted: Painted[] = [];
const of = (v: number) => painted.find((p) => p.version === v)!;

beforeAll(async () => {
  for await (const p of paintVersions([1, 2, 3, 4, 5], W, H, { workers: 0 })) painted.push(p);
}, 240_000);

const oklch = converter('oklch');

/** Chroma-weighted density over hue in degrees, von Mises kernel of 20° full width at half maximum. */
function hueDensity(p: Painted): Float64Array {
  const weight = new Float64Array(360);
  for (let i = 0; i < p.pixels.length; i += 3 * 7) {
    const c = oklch({
      mode: 'rgb',
      r: p.pixels[i]! / 255,
      g: p.pixels[i + 1]! / 255,
      b: p.pixels[i + 2]! / 255,
    });
    if (c.h === undefined) continue;
    weight[Math.floor(c.h) % 360]! += c.c * Math.min(1, Math.max(0, (c.c - 0.02) / 0.02));
  }
  const kappa = Math.LN2 / (1 - Math.cos((10 * Math.PI) / 180));
  return Float64Array.from({ length: 360 }, (_, h) => {
    let sum = 0;
    for (let g = 0; g < 360; g++)
      sum += weight[g]! * Math.exp(kappa * (Math.cos(((h - g) * Math.PI) / 180) - 1));
    return sum;
  });
}

/** Hues of the modes with a prominence of at least 10 % of the highest one. */
function modes(density: Float64Array): number[] {
  const top = Math.max(...density);
  const at = (h: number) => density[(h + 720) % 360]!;
  const out: number[] = [];
  for (let h = 0; h < 360; h++) {
    if (at(h) < at(h - 1) || at(h) <= at(h + 1)) continue;
    const saddle = (step: number) => {
      let low = at(h);
      for (let k = 1; k < 360; k++) {
        if (at(h + step * k) > at(h)) return low;
        low = Math.min(low, at(h + step * k));
      }
      return 0;
    };
    if (at(h) - Math.max(saddle(1), saddle(-1)) >= 0.1 * top) out.push(h);
  }
  return out;
}

const shareBelow = (p: Painted, L: number) => {
  let n = 0;
  const linear = (v: number) => (v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4);
  for (let i = 0; i < p.pixels.length; i += 3) {
    const [r, g, b] = [0, 1, 2].map((c) => linear(p.pixels[i + c]! / 255)) as [number, number, number];
    if (lightness(0.2126 * r + 0.7152 * g + 0.0722 * b) < L) n++;
  }
  return n / (W * H);
};

describe('hue families (own count with culori, rule of readings.md)', () => {
  it.each([
    [2, 6],
    [3, 4],
    [4, 4],
    [5, 2],
  ])('version %i has %i', (version, families) => {
    expect(modes(hueDensity(of(version)))).toHaveLength(families);
  });

  it('version 5 is violet-blue with orange against it', () => {
    const [warm, cool] = modes(hueDensity(of(5))).sort((a, b) => a - b);
    expect(warm).toBeGreaterThan(25);
    expect(warm).toBeLessThan(75);
    expect(cool).toBeGreaterThan(270);
    expect(cool).toBeLessThan(305);
  });
});

describe('closed darks', () => {
  it('take the stated share in version 3, within 1.5 points', () => {
    expect(Math.abs(shareBelow(of(3), 2) - versionOf(3).closed)).toBeLessThan(0.015);
  });
  it.each([1, 2, 4, 5])('are open in version %i', (v) => {
    expect(shareBelow(of(v), 2)).toBeLessThan(0.002);
  });
});

/** Log-chromaticity (y) and log strength (ℓ) of a pixel. */
function logColour(rgb: ArrayLike<number>, i: number): [y: number, l: number] {
  const [r, g, b] = [0, 1, 2].map((c) => Math.log(rgb[i * 3 + c]! + 1e-4)) as [number, number, number];
  return [(r + g - 2 * b) / Math.sqrt(6), (r + g + b) / 3];
}

const linearOf = (p: Painted) =>
  Float64Array.from(p.pixels, (v) =>
    v <= 0.04045 * 255 ? v / 255 / 12.92 : ((v / 255 + 0.055) / 1.055) ** 2.4,
  );

/** The mask without its rim of three pixels, where strokes of the surroundings reach over. */
function inner(mask: Uint8Array): Uint8Array {
  const out = new Uint8Array(mask.length);
  for (let y = 3; y < H - 3; y++)
    for (let x = 3; x < W - 3; x++) {
      let least = 255;
      for (let d = -3; d <= 3; d++) least = Math.min(least, mask[y * W + x + d]!, mask[(y + d) * W + x]!);
      out[y * W + x] = least;
    }
  return out;
}

/** Slope of chromaticity on strength over the full pixels of a mask. */
function shiftSlope(rgb: ArrayLike<number>, mask: Uint8Array): number {
  let n = 0;
  let sx = 0;
  let sy = 0;
  let sxx = 0;
  let sxy = 0;
  for (let i = 0; i < W * H; i++) {
    if (mask[i]! < 250) continue;
    const [y, l] = logColour(rgb, i);
    n++;
    sx += l;
    sy += y;
    sxx += l * l;
    sxy += l * y;
  }
  return (sxy - (sx * sy) / n) / (sxx - (sx * sx) / n);
}

/** Mean difference of chromaticity between two pictures over the full pixels of a mask. */
function shiftBetween(a: ArrayLike<number>, b: ArrayLike<number>, mask: Uint8Array): number {
  let n = 0;
  let sum = 0;
  for (let i = 0; i < W * H; i++) {
    if (mask[i]! < 250) continue;
    sum += logColour(b, i)[0] - logColour(a, i)[0];
    n++;
  }
  return sum / n;
}

// The truth is the scene itself before a stroke was painted: the strokes must carry its light.
describe('light as painted, against the unpainted picture', () => {
  const sizes = studySize(W, H);
  const study = studyOf(
    cast({ seed: SEED, width: W, height: H, rows: [0, H], lit: false }),
    cast({ seed: SEED, width: sizes.lit[0], height: sizes.lit[1], rows: [0, sizes.lit[1]], lit: true }),
    SEED,
  );
  const place = placeOf({ seed: SEED, aspect: W / H });
  const unpainted = (v: number) => {
    const { picture } = plant(study, versionOf(v));
    layAir(study, place, picture, versionOf(v).air);
    layVeil(picture, versionOf(v).veil);
    return picture;
  };

  // Between two versions of one place its pigment cancels out: what is left is how the light was changed.
  it.each([1, 2, 4])('changes the shade of the built things as was planted in version %i', (v) => {
    const { neutral, shade } = of(1).truth.masks;
    const mask = inner(neutral.data.map((m, i) => (shade.data[i]! > 200 ? m : 0)));
    const scene = shiftBetween(unpainted(5), unpainted(v), mask);
    const paint = shiftBetween(linearOf(of(5)), linearOf(of(v)), mask);
    expect(Math.abs(paint - scene)).toBeLessThan(0.06);
  });

  it('turns them far more in version 5 than in version 1', () => {
    const mask = of(1).truth.masks.neutral.data;
    expect(shiftSlope(linearOf(of(5)), mask)).toBeGreaterThan(shiftSlope(linearOf(of(1)), mask) + 0.15);
  });

  it('puts the right shed of version 3 in the swapped light', () => {
    const mask = of(3).truth.masks.opposite.data;
    const scene = shiftBetween(unpainted(5), unpainted(3), mask);
    const paint = shiftBetween(linearOf(of(5)), linearOf(of(3)), mask);
    expect(Math.abs(scene)).toBeGreaterThan(0.1);
    expect(paint / scene).toBeGreaterThan(0.7);
    expect(paint / scene).toBeLessThan(1.3);
  });
});

/** Mean absolute Laplacian of code values within a mask: fine detail. */
function fineDetail(p: Painted, mask: Uint8Array): number {
  let sum = 0;
  let n = 0;
  const g = (i: number) => p.pixels[i * 3 + 1]!;
  for (let y = 1; y < H - 1; y++)
    for (let x = 1; x < W - 1; x++) {
      const i = y * W + x;
      if (mask[i]! < 200) continue;
      sum += Math.abs(4 * g(i) - g(i - 1) - g(i + 1) - g(i - W) - g(i + W));
      n++;
    }
  return sum / n;
}

describe('the rest of the story', () => {
  it('overworks the nets in version 3 and calms them after', () => {
    const mask = of(3).truth.masks.overworked.data;
    expect(fineDetail(of(3), mask)).toBeGreaterThan(1.6 * fineDetail(of(4), mask));
    expect(fineDetail(of(3), mask)).toBeGreaterThan(1.6 * fineDetail(of(5), mask));
  });

  it('veils version 4: nothing is darker than the veil', () => {
    const { amount, grey } = versionOf(4).veil;
    const floor = 255 * (1.055 * (amount * grey) ** (1 / 2.4) - 0.055);
    let below = 0;
    for (let i = 1; i < of(4).pixels.length; i += 3) if (of(4).pixels[i]! < floor - 6) below++;
    expect(below / (W * H)).toBeLessThan(0.01);
  });

  it('blocks version 1 in with fewer and larger strokes', () => {
    const strokes = (v: number) => of(v).truth.facts.strokes as number;
    expect(strokes(1)).toBeLessThan(0.5 * strokes(5));
  });

  it('has its accent, the lamp’s reflection, strongest in version 5', () => {
    const [x] = (of(5).truth.facts.lamps as [number, number][])[0]!;
    const warmth = (p: Painted) => {
      let sum = 0;
      for (let y = Math.round(0.85 * H); y < 0.98 * H; y++)
        for (let dx = -3; dx <= 3; dx++) {
          const i = (y * W + Math.round(x * W) + dx) * 3;
          sum += p.pixels[i]! - p.pixels[i + 2]!;
        }
      return sum / (7 * 0.13 * H);
    };
    for (const v of [1, 2, 4]) expect(warmth(of(5))).toBeGreaterThan(warmth(of(v)) + 8);
    expect(warmth(of(5))).toBeGreaterThan(25);
  });

  it('carries its truth: masks of the picture’s shape and the stated shares', () => {
    for (const { number } of VERSIONS) {
      const { masks, facts } = of(number).truth;
      const shares = facts.shares as Record<string, number>;
      for (const name of ['neutral', 'opposite', 'strays', 'overworked'] as const) {
        expect([masks[name].width, masks[name].height]).toEqual([W, H]);
        const mean = masks[name].data.reduce((s, v) => s + v, 0) / 255 / (W * H);
        expect(mean).toBeCloseTo(shares[name]!, 2);
      }
    }
    const share = (v: number, name: string) => (of(v).truth.facts.shares as Record<string, number>)[name]!;
    expect(share(1, 'neutral')).toBeGreaterThan(0.05);
    expect(share(3, 'opposite')).toBeGreaterThan(0.03);
    expect(share(2, 'strays')).toBeGreaterThan(share(4, 'strays'));
    expect(share(5, 'strays') + share(5, 'neutral') + share(5, 'opposite') + share(5, 'overworked')).toBe(0);
  });
});

describe('the same every time', () => {
  it('for the same seed, and different for another', async () => {
    const paint = async (seed: number) => (await paintFerryLanding(4, 120, 75, { workers: 0, seed })).pixels;
    const [a, b, c] = [await paint(3), await paint(3), await paint(4)];
    expect(Buffer.compare(a, b)).toBe(0);
    expect(Buffer.compare(a, c)).not.toBe(0);
  }, 120_000);
});

it('refuses versions and sizes that are none', async () => {
  await expect(paintFerryLanding(6, 120, 75, { workers: 0 })).rejects.toThrow(/versions 1 to 5/);
  await expect(paintFerryLanding(1, 4, 4, { workers: 0 })).rejects.toThrow(/at least 16/);
});
