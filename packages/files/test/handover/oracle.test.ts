import { readFileSync } from 'node:fs';
import {
  bakeTable,
  ciede2000,
  EMPTY_RECIPE,
  lightRows,
  linearToCielab,
  makeCloseView,
  PRESETS,
  planSize,
  type Raster,
  type Recipe,
  readTable,
  readyRecipe,
  rowEditor,
  SRGB,
  srgbToLinear,
  stepRunner,
  type Triple,
} from '@halflight/engine';
import { parseXml } from '@rgrove/parse-xml';
import { afterAll, describe, expect, test } from 'vitest';
import { writeAbstractProfile } from '../../src/handover/abstractProfile.ts';
import { writeClf } from '../../src/handover/clf.ts';
import { openInks, type Way } from '../../src/handover/inks.ts';
import { labInto, lightInto } from '../../src/handover/lab.ts';
import { openProfile } from '../../src/handover/profileFile.ts';
import { countInk, lookInProfile } from '../../src/handover/proof.ts';
import { readProfile } from '../../src/icc/read.ts';
import { startLibrary } from '../../src/node/library.ts';

/** What LittleCMS' and OpenColorIO's tools say (see oracle/make.mjs). */
const oracle: {
  readonly recipe: Recipe;
  readonly codes: readonly Triple[];
  readonly lab: readonly Triple[];
  readonly inks: Readonly<
    Record<string, { readonly ink: readonly number[][]; readonly back: readonly Triple[] }>
  >;
  readonly ocio: readonly Triple[];
  readonly abstract: readonly Triple[];
  readonly linked: readonly Triple[];
  readonly ground: { readonly width: number; readonly height: number; readonly data: string };
  readonly lostShare: number;
} = JSON.parse(readFileSync(new URL('./oracle/oracle.json', import.meta.url), 'utf8'));

const vips = await startLibrary({ dynamicLibraries: [] });
const inks = openInks(vips, openProfile(vips.Image.profileLoad('cmyk').slice(), 'paper.icc'));
afterAll(() => vips.shutdown());

/** Median and largest CIEDE2000; the aims are below 0.5 and below 2. */
function expectNear(ours: readonly Triple[], theirs: readonly Triple[], median = 0.5, most = 2): void {
  const differences = ours.map((lab, i) => ciede2000(lab, theirs[i])).sort((a, b) => a - b);
  expect(differences[differences.length >> 1]).toBeLessThan(median);
  expect(differences.at(-1)).toBeLessThan(most);
}

const labOfCodes = (code: Triple): Triple =>
  linearToCielab(code.map((v) => srgbToLinear(v)) as unknown as Triple);
const triples = (flat: ArrayLike<number>): Triple[] =>
  Array.from({ length: flat.length / 3 }, (_, i) => [flat[3 * i], flat[3 * i + 1], flat[3 * i + 2]]);

/** What the full-size edit writes of the colours, sRGB codes 0…1. */
function exported(): Triple[] {
  const data = Uint16Array.from(oracle.codes.flat(), (v) => Math.round(65535 * v));
  const raster: Raster = { width: oracle.codes.length, height: 1, channels: 3, depth: 16, data, space: SRGB };
  const out = new Uint16Array(data.length);
  rowEditor(readyRecipe(oracle.recipe, null), raster, { space: SRGB, depth: 16 })(0, 1, out);
  return triples(Array.from(out, (v) => v / 65535));
}

describe('inks against LittleCMS', () => {
  test.each<[string, Way]>([
    ['relative', { intent: 'relative', blackPoint: false }],
    ['relative, black point', { intent: 'relative', blackPoint: true }],
    ['perceptual', { intent: 'perceptual', blackPoint: false }],
  ])('%s', (name, way) => {
    const { ink, back } = oracle.inks[name];
    const codes = inks.to(Float32Array.from(oracle.lab.flat()), 16, way);
    expectNear(triples(inks.back(codes)), back);
    const theirs = Uint16Array.from(ink.flat(), (v) => Math.round(655.35 * v));
    const sum = (all: Uint8Array | Uint16Array) => {
      const counter = countInk();
      counter.add(all);
      return counter.use();
    };
    // Total ink, per cent.
    expect(Math.abs(sum(codes).most - sum(theirs).most)).toBeLessThan(2);
    expect(Math.abs(sum(codes).mean - sum(theirs).mean)).toBeLessThan(1);
  });
  test('the share that is lost, against its gamut check', () => {
    const { width, height, data } = oracle.ground;
    const raster: Raster = {
      width,
      height,
      channels: 3,
      depth: 8,
      data: new Uint8Array(Buffer.from(data, 'base64')),
      space: SRGB,
    };
    const view = makeCloseView(raster);
    const { share } = lookInProfile(view, inks, { intent: 'relative', blackPoint: false });
    // It counts from another distance on (CIE 1976), so that shares agree, not single colours.
    expect(Math.abs(share - oracle.lostShare)).toBeLessThan(0.05);
  });
  test('black that is compensated is not lost', () => {
    // Greys from black to white: the paper has all of them, once its own black is taken for black.
    const rgb = Float32Array.from({ length: 3 * 64 }, (_, i) => (Math.floor(i / 3) / 63) ** 3);
    const view = { width: 64, height: 1, rgb, alpha: null, scale: 1 };
    expect(lookInProfile(view, inks, { intent: 'relative', blackPoint: true }).share).toBeLessThan(0.1);
    expect(lookInProfile(view, inks, { intent: 'relative', blackPoint: false }).share).toBeGreaterThan(0.2);
  });
});

describe('the edit as a table', () => {
  const table = bakeTable(oracle.recipe, 'srgb');
  test('is read between its places as OpenColorIO reads it', () => {
    const out = new Float64Array(3);
    for (const [i, code] of oracle.codes.entries()) {
      readTable(table, code, out);
      for (let c = 0; c < 3; c++) expect(Math.abs(out[c] - oracle.ocio[i][c])).toBeLessThan(1e-4);
    }
  });
  test('CLF applied by OpenColorIO is our export', () => {
    expectNear(oracle.ocio.map(labOfCodes), exported().map(labOfCodes));
  });
  test('is well-formed, with as many numbers as it says', () => {
    const text = writeClf(bakeTable(oracle.recipe, 'display-p3', 5), 'Dusk & "mud" <1>');
    const { root } = parseXml(text);
    expect(root?.attributes).toMatchObject({ compCLFversion: '3', name: 'Dusk & "mud" <1>' });
    expect(text).toContain('<InputDescriptor>Display P3 code values');
    const numbers = /<Array dim="5 5 5 3">([^<]*)</.exec(text)?.[1].trim().split(/\s+/);
    expect(numbers).toHaveLength(375);
  });
});

describe('the edit as an abstract profile', () => {
  test('applied by LittleCMS is the kernel', () => {
    const run = stepRunner(
      oracle.recipe.steps,
      oracle.recipe.steps.map(() => null),
    );
    const light = new Float64Array(3);
    const lab = new Float64Array(3);
    const ours = oracle.lab.map(([L, a, b]): Triple => {
      lightInto(light, 0, L, a, b);
      run(light, 0, [], 0);
      labInto(lab, 0, light[0], light[1], light[2]);
      return [lab[0], lab[1], lab[2]];
    });
    expectNear(ours, oracle.abstract);
  });
  test('between two profiles of sRGB it is our export, where nothing has to be mapped', () => {
    const run = stepRunner(
      oracle.recipe.steps,
      oracle.recipe.steps.map(() => null),
    );
    const inside = oracle.codes.map((code) => {
      const light = Float64Array.from(code, srgbToLinear);
      run(light, 0, [], 0);
      // LittleCMS sets the white of a link to white, whatever the edit makes of it.
      return light.every((v) => v > 0 && v < 1) && code.some((v) => v < 1);
    });
    expect(inside.filter(Boolean).length).toBeGreaterThan(30);
    const theirs = oracle.linked.map((row) => labOfCodes(row.map((v) => v / 255) as unknown as Triple));
    const kept = (all: readonly Triple[]) => all.filter((_, i) => inside[i]);
    expectNear(kept(exported().map(labOfCodes)), kept(theirs));
  });
  test('says what it is', () => {
    const bytes = writeAbstractProfile(EMPTY_RECIPE, 'Nothing');
    expect(readProfile(bytes)).toMatchObject({ model: 'Lab ', pcs: 'Lab ', description: 'Nothing' });
    expect(String.fromCharCode(...bytes.subarray(12, 16))).toBe('abst');
  });
});

test('a smaller size is that of the imaging library by Lanczos, on a zone plate', () => {
  const side = 256;
  const data = new Uint16Array(3 * side * side);
  const light = new Float32Array(side * side);
  for (let y = 0, p = 0; y < side; y++)
    for (let x = 0; x < side; x++, p++) {
      const wave = 0.5 + 0.5 * Math.cos((Math.PI * ((x - 128) ** 2 + (y - 128) ** 2)) / side);
      const code = Math.round(65535 * wave);
      data.fill(code, 3 * p, 3 * p + 3);
      light[p] = srgbToLinear(code / 65535);
    }
  const raster: Raster = { width: side, height: side, channels: 3, depth: 16, data, space: SRGB };
  for (const size of [64, 100]) {
    const planned = planSize(raster, { ...PRESETS.screen.size, width: size, height: size });
    if (!planned.ok) throw new Error(planned.trouble);
    const { row } = lightRows(readyRecipe(EMPTY_RECIPE, null), raster, planned.value, {
      space: SRGB,
      ground: '#ffffff',
      opaque: false,
    });
    const image = vips.Image.newFromMemory(light, side, side, 1, vips.BandFormat.float);
    const small = image.resize(size / side, { kernel: 'lanczos3', gap: 0 });
    const theirs = small.writeToMemory();
    image.delete();
    small.delete();
    const line = new Float64Array(3 * size);
    let [sum, theirSum, off, energy, theirEnergy] = [0, 0, 0, 0, 0];
    const inside = (k: number) => k >= 4 && k < size - 4;
    for (let y = 0; y < size; y++) {
      row(y, line);
      for (let x = 0; x < size; x++) {
        if (!inside(x) || !inside(y)) continue;
        const [a, b] = [line[3 * x], theirs[y * size + x]];
        sum += a;
        theirSum += b;
        off = Math.max(off, Math.abs(a - b));
      }
    }
    const count = (size - 8) ** 2;
    for (let y = 4; y < size - 4; y++) {
      row(y, line);
      for (let x = 4; x < size - 4; x++) {
        energy += (line[3 * x] - sum / count) ** 2;
        theirEnergy += (theirs[y * size + x] - theirSum / count) ** 2;
      }
    }
    expect(sum / theirSum).toBeCloseTo(1, 3);
    expect(energy / theirEnergy).toBeCloseTo(1, 2);
    expect(off).toBeLessThan(0.01);
  }
});
