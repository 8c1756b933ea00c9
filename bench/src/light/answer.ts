/** What an algorithm says of a picture, whoever it is: our reading, or label maps written by another program. */
import { existsSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { type LightIntent, readLight } from '@halflight/engine';
import { readMap, readPicture } from './png.ts';

export type FlagKind = 'neutral' | 'opposite';

export interface Answer {
  /** Lit minus shade, or null where it abstains. */
  readonly shift: { readonly x: number; readonly y: number } | null;
  /** Per pixel of the picture: 0 nothing, 1 flagged. */
  readonly flagged: Readonly<Record<FlagKind, Uint8Array>>;
  /** Flagged places with the colour each should have. */
  readonly places: readonly AnsweredPlace[];
  readonly milliseconds: number;
}

export interface AnsweredPlace {
  readonly kind: FlagKind;
  readonly pixels: Int32Array;
  readonly should: readonly [number, number, number];
}

export type Answerer = (
  name: string,
  picture: { rgb: Float32Array; width: number; height: number },
) => Promise<Answer>;

/** Our reading, of a light that is read or of one that `lightOf` declares for each picture. */
export const ours =
  (lightOf: (name: string) => LightIntent | null = () => null): Answerer =>
  async (name, { rgb, width, height }) => {
    const start = performance.now();
    const r = readLight({ width, height, rgb, alpha: null, scale: 1 }, { light: lightOf(name) });
    const milliseconds = performance.now() - start;
    if (r.width !== width || r.height !== height)
      throw new Error('The reading changed the size of the picture.');
    const flagged = {
      neutral: Uint8Array.from(r.neutral.data, (v) => (v > 0 ? 1 : 0)),
      opposite: Uint8Array.from(r.opposite.data, (v) => (v > 0 ? 1 : 0)),
    };
    const places = r.places.map((p) => ({
      kind: p.kind,
      should: p.should,
      pixels: insideOf(p.outline, width, height, flagged[p.kind]),
    }));
    return { shift: r.shift, flagged, places, milliseconds };
  };

/**
 * Label maps in a folder: NAME.labels.png (8-bit grey: 3 neutral, 4 opposite, anything else not flagged),
 * NAME.labels.json ({"shift":{x,y}|null,"milliseconds"}) and, if there is one, NAME.should.png (16-bit sRGB, the
 * colour each flagged pixel should have).
 */
export function fromFolder(folder: string): Answerer {
  return async (name, { width, height }) => {
    const labels = await readMap(join(folder, `${name}.labels.png`), 1);
    if (labels.length !== width * height)
      throw new Error(`${name}.labels.png has another size than the picture.`);
    const note = JSON.parse(await readFile(join(folder, `${name}.labels.json`), 'utf8'));
    const flagged = {
      neutral: labels.map((v) => (v === 3 ? 1 : 0)),
      opposite: labels.map((v) => (v === 4 ? 1 : 0)),
    };
    const shouldFile = join(folder, `${name}.should.png`);
    const places: AnsweredPlace[] = [];
    if (existsSync(shouldFile)) {
      const should = (await readPicture(shouldFile)).rgb;
      for (const kind of ['neutral', 'opposite'] as const)
        for (const pixels of islands(flagged[kind], width, height))
          places.push({ kind, pixels, should: meanOf(should, pixels) });
    }
    return { shift: note.shift, flagged, places, milliseconds: note.milliseconds ?? 0 };
  };
}

/** Pixels inside a closed outline (even–odd rule) that are flagged. */
function insideOf(
  outline: readonly number[],
  width: number,
  height: number,
  flagged: Uint8Array,
): Int32Array {
  const out: number[] = [];
  const n = outline.length / 2;
  for (let y = 0; y < height; y++) {
    const level = (y + 0.5) / height;
    const crossings: number[] = [];
    for (let i = 0; i < n; i++) {
      const j = (i + 1) % n;
      const [x0, y0, x1, y1] = [outline[2 * i]!, outline[2 * i + 1]!, outline[2 * j]!, outline[2 * j + 1]!];
      if (y0 > level !== y1 > level) crossings.push((x0 + ((level - y0) / (y1 - y0)) * (x1 - x0)) * width);
    }
    crossings.sort((a, b) => a - b);
    for (let c = 0; c + 1 < crossings.length; c += 2) {
      const last = Math.min(width, Math.ceil(crossings[c + 1]! - 0.5));
      for (let x = Math.max(0, Math.ceil(crossings[c]! - 0.5)); x < last; x++)
        if (flagged[y * width + x]) out.push(y * width + x);
    }
  }
  return Int32Array.from(out);
}

/** Connected areas (four neighbours) of at least 200 pixels. */
function islands(mask: Uint8Array, width: number, height: number): Int32Array[] {
  const seen = new Uint8Array(mask.length);
  const out: Int32Array[] = [];
  for (let start = 0; start < mask.length; start++) {
    if (!mask[start] || seen[start]) continue;
    const area = [start];
    seen[start] = 1;
    for (let q = 0; q < area.length; q++) {
      const i = area[q]!;
      const x = i % width;
      const next = [x > 0 ? i - 1 : -1, x < width - 1 ? i + 1 : -1, i - width, i + width];
      for (const j of next)
        if (j >= 0 && j < width * height && mask[j] && !seen[j]) {
          seen[j] = 1;
          area.push(j);
        }
    }
    if (area.length >= 200) out.push(Int32Array.from(area));
  }
  return out;
}

/** Mean linear colour over the pixels. */
export function meanOf(rgb: Float32Array, pixels: ArrayLike<number>): [number, number, number] {
  const sum: [number, number, number] = [0, 0, 0];
  for (let p = 0; p < pixels.length; p++) for (let c = 0; c < 3; c++) sum[c]! += rgb[pixels[p]! * 3 + c]!;
  return [sum[0] / pixels.length, sum[1] / pixels.length, sum[2] / pixels.length];
}
