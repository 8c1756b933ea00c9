import { type Curve, srgbToLinear } from '@halflight/engine';
import { ascii, viewOf } from '../container/bytes.ts';

/** What a profile says of itself. Source of all offsets and types: ICC.1:2022 (profile version 4.4), ICC.1:2001-04. */
export interface IccProfile {
  /** "RGB ", "GRAY", "CMYK", "Lab " … */
  readonly model: string;
  /** Connection space, "XYZ " or "Lab ". */
  readonly pcs: string;
  /** The profile's own name, '' when it has none. */
  readonly description: string;
  /** True when colours go through tables (A2B, D2B), so that curves and matrix are not the whole truth. */
  readonly tables: boolean;
  /** Columns X, Y, Z (D50) of red, green and blue; null where they are missing. */
  readonly colorants: readonly (readonly [number, number, number])[] | null;
  /** One curve for each channel (one for grey); null where one is missing or none that rises. */
  readonly curves: readonly Curve[] | null;
}

interface Tag {
  readonly at: number;
  readonly size: number;
}

/** Reads a profile. Null when it is none: wrong signature, cut off, or with tags outside its bytes. */
export function readProfile(bytes: Uint8Array): IccProfile | null {
  if (bytes.length < 132 || ascii(bytes, 36, 4) !== 'acsp') return null;
  const view = viewOf(bytes);
  const count = view.getUint32(128);
  if (count > 200 || 132 + 12 * count > bytes.length) return null;
  const tags = new Map<string, Tag>();
  for (let i = 0; i < count; i++) {
    const entry = 132 + 12 * i;
    const tag = { at: view.getUint32(entry + 4), size: view.getUint32(entry + 8) };
    if (tag.at + tag.size > bytes.length) return null;
    tags.set(ascii(bytes, entry, 4), tag);
  }
  try {
    const model = ascii(bytes, 16, 4);
    return {
      model,
      pcs: ascii(bytes, 20, 4),
      description: describe(bytes, tags.get('desc')),
      tables: ['A2B0', 'A2B1', 'A2B2', 'D2B0', 'D2B1', 'D2B2', 'D2B3'].some((name) => tags.has(name)),
      colorants: all(['rXYZ', 'gXYZ', 'bXYZ'].map((name) => readXyz(bytes, tags.get(name)))),
      curves: all(
        (model === 'GRAY' ? ['kTRC'] : ['rTRC', 'gTRC', 'bTRC']).map((name) =>
          readCurve(bytes, tags.get(name)),
        ),
      ),
    };
  } catch (error) {
    if (error instanceof RangeError) return null;
    throw error;
  }
}

function all<T>(items: (T | null)[]): T[] | null {
  return items.every((item) => item !== null) ? (items as T[]) : null;
}

/** textDescriptionType (version 2) or multiLocalizedUnicodeType (version 4): English, else the first one. */
function describe(bytes: Uint8Array, tag: Tag | undefined): string {
  if (!tag) return '';
  const view = viewOf(bytes);
  const type = ascii(bytes, tag.at, 4);
  let text = '';
  if (type === 'desc') text = ascii(bytes, tag.at + 12, Math.min(view.getUint32(tag.at + 8), tag.size));
  if (type === 'mluc') {
    const count = Math.min(view.getUint32(tag.at + 8), 100);
    const records = Array.from({ length: count }, (_, i) => tag.at + 16 + 12 * i);
    const record = records.find((at) => ascii(bytes, at, 2) === 'en') ?? records[0];
    if (record !== undefined) {
      const from = tag.at + view.getUint32(record + 8);
      const to = Math.min(from + view.getUint32(record + 4), bytes.length);
      text = new TextDecoder('utf-16be').decode(bytes.subarray(from, to));
    }
  }
  return text
    .replace(/\0[\s\S]*$/, '')
    .replace(/\p{C}+/gu, ' ')
    .trim()
    .slice(0, 80);
}

function fixed(view: DataView, at: number): number {
  return view.getInt32(at) / 65536;
}

function readXyz(bytes: Uint8Array, tag: Tag | undefined): [number, number, number] | null {
  if (!tag || ascii(bytes, tag.at, 4) !== 'XYZ ') return null;
  const view = viewOf(bytes);
  return [fixed(view, tag.at + 8), fixed(view, tag.at + 12), fixed(view, tag.at + 16)];
}

/** Largest distance from the sRGB curve at which a curve is taken for it: a third of the first 8-bit step. */
const SRGB_TOLERANCE = 1e-4;
const SRGB_SAMPLES = 1023;

/** curveType or parametricCurveType as a curve that rises; null for other types and for curves that fall. */
function readCurve(bytes: Uint8Array, tag: Tag | undefined): Curve | null {
  if (!tag) return null;
  const view = viewOf(bytes);
  const type = ascii(bytes, tag.at, 4);
  if (type === 'curv') {
    const count = view.getUint32(tag.at + 8);
    if (count === 0) return { kind: 'power', exponent: 1 };
    if (count === 1) return power(view.getUint16(tag.at + 12) / 256);
    if (12 + 2 * count > tag.size) return null;
    return tidy(Float64Array.from({ length: count }, (_, i) => view.getUint16(tag.at + 12 + 2 * i) / 65535));
  }
  if (type !== 'para') return null;
  const kind = view.getUint16(tag.at + 8);
  const counts = [1, 3, 4, 5, 7];
  if (kind >= counts.length || 12 + 4 * counts[kind] > tag.size) return null;
  const p = Array.from({ length: counts[kind] }, (_, i) => fixed(view, tag.at + 12 + 4 * i));
  if (kind === 0) return power(p[0]);
  const shape = parametric(kind, p);
  if (isSrgb(shape, SRGB_SAMPLES)) return { kind: 'srgb' };
  return tidy(Float64Array.from({ length: 65536 }, (_, i) => Math.min(1, Math.max(0, shape(i / 65535)))));
}

/** The functions 1–4 of parametricCurveType (ICC.1:2022 table 68), of a code value 0…1. */
function parametric(kind: number, p: readonly number[]): (x: number) => number {
  const [g, a, b] = p;
  const up = (x: number) => Math.max(0, a * x + b) ** g;
  if (kind === 1) return (x) => (x >= -b / a ? up(x) : 0);
  if (kind === 2) return (x) => (x >= -b / a ? up(x) + p[3] : p[3]);
  const [c, d, e, f] = [p[3], p[4], p[5] ?? 0, p[6] ?? 0];
  return (x) => (x >= d ? up(x) + e : c * x + f);
}

function power(exponent: number): Curve | null {
  return exponent > 0.1 && exponent < 10 ? { kind: 'power', exponent } : null;
}

/** A table as the sRGB curve where it is one; null where it falls or says nothing. */
function tidy(values: Float64Array): Curve | null {
  const last = values.length - 1;
  for (let i = 1; i <= last; i++) if (!(values[i] >= values[i - 1])) return null;
  if (!(values[last] > values[0])) return null;
  // A coarse table bends between its samples: only a fine one is the curve itself.
  const srgb = last >= 500 && isSrgb((x) => values[Math.round(x * last)], last);
  return srgb ? { kind: 'srgb' } : { kind: 'table', values };
}

function isSrgb(shape: (x: number) => number, samples: number): boolean {
  for (let i = 0; i <= samples; i++) {
    const x = i / samples;
    if (!(Math.abs(shape(x) - srgbToLinear(x)) < SRGB_TOLERANCE)) return false;
  }
  return true;
}
