import { describe, expect, it } from 'vitest';
import { plant } from '../../src/ferry/faults.ts';
import { FILL, KEY } from '../../src/ferry/materials.ts';
import { placeOf } from '../../src/ferry/place.ts';
import { cast, onPicture, studyOf } from '../../src/ferry/study.ts';
import { PURITY } from '../../src/ferry/swapped.ts';
import { versionOf } from '../../src/ferry/versions.ts';

const W = 240;
const H = 150;
const size = { seed: 6, width: W, height: H, rows: [0, H] as const };
const study = studyOf(cast({ ...size, lit: false }), cast({ ...size, lit: true }), 6);
const place = placeOf({ seed: 6, aspect: W / H });
const thingAt = (i: number) => (study.body[i]! < 0 ? 'sky' : study.things[study.body[i]!]!);
const where = (test: (i: number) => boolean) =>
  Array.from({ length: W * H }, (_, i) => i).filter((i) => test(i));

describe('the place', () => {
  it('shows the lit door and the lamp where it says they are', () => {
    const pixel = (p: readonly [number, number, number]) => {
      const [x, y] = onPicture(place, p);
      return Math.floor(y * H) * W + Math.floor(x * W);
    };
    expect(thingAt(pixel(place.lamp))).toBe('head lamp');
    expect(['middle shed', 'figure']).toContain(thingAt(pixel(place.focus)));
  });

  it('has the horizon at its place', () => {
    const column = where((i) => i % W === 2 && thingAt(i) === 'sky').map((i) => Math.floor(i / W));
    expect(Math.abs(Math.max(...column) / H - place.horizon)).toBeLessThan(0.05);
  });
});

describe('the light', () => {
  it('has one key colour and one fill colour everywhere', () => {
    const seen = { key: 0, fill: 0 };
    for (let i = 0; i < W * H; i++) {
      for (const [name, colour] of [
        ['key', KEY],
        ['fill', FILL],
      ] as const) {
        const f = study[name];
        if (f[i * 3]! < 1e-4) continue;
        seen[name]++;
        expect(f[i * 3 + 1]! / f[i * 3]!).toBeCloseTo(colour[1] / colour[0], 3);
        expect(f[i * 3 + 2]! / f[i * 3]!).toBeCloseTo(colour[2] / colour[0], 3);
      }
    }
    expect(seen.key).toBeGreaterThan(3000);
    expect(seen.fill).toBeGreaterThan(15000);
  });

  // colour = ρ·(kK + A): what the surfaces send in version 5 is exactly that, before the air.
  it('is plain reflection of key and fill in version 5', () => {
    const { picture } = plant(study, versionOf(5));
    const plain = where((i) => ['jetty', 'right shed'].includes(thingAt(i)) && study.emissive[i * 3] === 0);
    for (const i of plain)
      for (let c = 0; c < 3; c++) {
        const j = i * 3 + c;
        expect(picture[j]).toBeCloseTo(study.reflectance[j]! * (study.key[j]! + study.fill[j]!), 6);
      }
    expect(plain.length).toBeGreaterThan(2000);
  });
});

/** Log-chromaticity of the light that a version puts on a place. */
function lightChroma(picture: Float32Array, i: number): [number, number] {
  const l = [0, 1, 2].map((c) => Math.log(picture[i * 3 + c]! / study.reflectance[i * 3 + c]!));
  return [(l[0]! - l[1]!) / Math.SQRT2, (l[0]! + l[1]! - 2 * l[2]!) / Math.sqrt(6)];
}

describe('planted light', () => {
  const built = where(
    (i) =>
      ['jetty', 'middle shed'].includes(thingAt(i)) &&
      study.surfaceNames[study.surface[i]!] !== 'rope' &&
      study.emissive[i * 3] === 0,
  );

  it('only darkens in version 1: one chromaticity from light to shade', () => {
    const { picture } = plant(study, versionOf(1));
    const [x0, y0] = lightChroma(picture, built[0]!);
    for (const i of built) {
      const [x, y] = lightChroma(picture, i);
      expect(Math.hypot(x - x0, y - y0)).toBeLessThan(1e-3);
    }
  });

  it('keeps the strength of the light while it does', () => {
    const right = plant(study, versionOf(5)).picture;
    const dull = plant(study, versionOf(1)).picture;
    for (const i of built) {
      const mean = (p: Float32Array) => Math.log(p[i * 3]! * p[i * 3 + 1]! * p[i * 3 + 2]!) / 3;
      expect(mean(dull)).toBeCloseTo(mean(right), 3);
    }
  });

  it('runs along the curve of the swapped light, K/A = s²/q a little less pure, on the right shed of version 3', () => {
    const { picture, planted } = plant(study, versionOf(3));
    const q = KEY.map((k, c) => (k / FILL[c]!) ** PURITY);
    const fill = KEY.map((k) => k ** PURITY);
    const s2 = (q[0]! * q[1]! * q[2]!) ** (2 / 3);
    const swapped = q.map((v) => s2 / v);
    const shed = where(
      (i) => thingAt(i) === 'right shed' && study.emissive[i * 3] === 0 && planted.opposite[i]! > 0,
    );
    expect(shed.length).toBeGreaterThan(500);
    // Swapped fill has the chromaticity of the key, a little less pure; what is added to it must be that of swapped key over fill.
    for (const i of shed) {
      const light = [0, 1, 2].map((c) => picture[i * 3 + c]! / study.reflectance[i * 3 + c]!);
      // light = g·(fill + t·fill·swapped): solve g and t from two channels and check the third.
      const u = light.map((l, c) => l / fill[c]!);
      const t = (u[0]! - u[1]!) / (u[1]! * swapped[0]! - u[0]! * swapped[1]!);
      const g = u[0]! / (1 + t * swapped[0]!);
      expect(t).toBeGreaterThanOrEqual(-1e-6);
      expect(u[2]! / (g * (1 + t * swapped[2]!))).toBeCloseTo(1, 3);
    }
  });

  it('is marked where it departs from the scene, and nowhere in version 5', () => {
    const clean = plant(study, versionOf(5)).planted;
    for (const mask of Object.values(clean)) expect(Math.max(...mask)).toBe(0);
    const one = plant(study, versionOf(1)).planted.neutral;
    const marked = built.filter((i) => one[i]! > 0);
    expect(marked.length / built.length).toBeGreaterThan(0.5);
    for (let i = 0; i < one.length; i++) if (one[i]! > 0) expect(thingAt(i)).toMatch(/shed|jetty|landing/);
  });
});
