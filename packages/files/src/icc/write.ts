import { type ColourSpace, type Curve, invert, multiply, SRGB_TO_XYZ } from '@halflight/engine';
import { PCS_TO_SRGB, PCS_WHITE } from './space.ts';

/**
 * Writes the ICC profile (version 4.3, display class, curves and matrix) of a colour space.
 *
 * The same space always gives the same bytes (the date in it is fixed). Source: ICC.1:2010, sections 7 to 10;
 * required tags: section 8.3.2 and 8.3.3. Bradford adaptation from D65 as annex E recommends.
 */
export function writeProfile(space: ColourSpace): Uint8Array {
  const fromSrgb = invert(PCS_TO_SRGB);
  const fromD65 = multiply(fromSrgb, invert(SRGB_TO_XYZ));
  const toD50 = multiply(fromSrgb, space.toSrgb);
  const columns = [0, 1, 2].map((i) => [toD50[i], toD50[3 + i], toD50[6 + i]].map(toFixed));
  // Rounded columns must still add up to the white, or greys would carry a tint: green takes the remainder.
  for (let i = 0; i < 3; i++) columns[1][i] = toFixed(PCS_WHITE[i]) - columns[0][i] - columns[2][i];
  const column = (i: number) => concat(ascii('XYZ '), zeros(4), ...columns[i].map((v) => uint32(v >>> 0)));
  const [red, green, blue] = space.curves.map(curveType);
  return assemble([
    ['desc', textType(space.name)],
    ['cprt', textType('CC0: no rights reserved')],
    ['wtpt', whitePoint()],
    ['chad', concat(ascii('sf32'), zeros(4), ...fromD65.map(s15Fixed16))],
    ['rXYZ', column(0)],
    ['gXYZ', column(1)],
    ['bXYZ', column(2)],
    ['rTRC', red],
    ['gTRC', space.curves[1] === space.curves[0] ? red : green],
    ['bTRC', space.curves[2] === space.curves[0] ? red : blue],
  ]);
}

const HEADER_SIZE = 128;

/** The white of the connection space as a tag: what `wtpt` holds in every profile of version 4. */
export function whitePoint(): Uint8Array {
  return concat(ascii('XYZ '), zeros(4), ...PCS_WHITE.map(s15Fixed16));
}

/**
 * Header, tag table and tag data; elements that are the same object are written once.
 *
 * @param kind class, colour space and connection space, four letters each
 */
export function assemble(
  tags: readonly (readonly [string, Uint8Array])[],
  kind: 'mntrRGB XYZ ' | 'abstLab Lab ' = 'mntrRGB XYZ ',
): Uint8Array {
  const places = new Map<Uint8Array, number>();
  let end = HEADER_SIZE + 4 + 12 * tags.length;
  for (const [, data] of tags) {
    if (places.has(data)) continue;
    places.set(data, end);
    end += (data.length + 3) & ~3;
  }
  const out = new Uint8Array(end);
  out.set(
    concat(
      uint32(end),
      zeros(4), // preferred CMM: none
      uint32(0x04300000),
      ascii(kind),
      ...[2026, 1, 1, 0, 0, 0].map(uint16),
      ascii('acsp'),
      zeros(4 + 4 + 4 + 4 + 8), // platform, flags, maker, model, attributes
      uint32(1), // media-relative colorimetric: all that curves and a matrix can say
      ...PCS_WHITE.map(s15Fixed16),
    ),
  );
  out.set(uint32(tags.length), HEADER_SIZE);
  tags.forEach(([name, data], i) => {
    const place = places.get(data) ?? 0;
    out.set(concat(ascii(name), uint32(place), uint32(data.length)), HEADER_SIZE + 4 + 12 * i);
    out.set(data, place);
  });
  return out;
}

/** parametricCurveType for formulas, curveType for tables (16 bit). */
function curveType(curve: Curve): Uint8Array {
  if (curve.kind === 'power')
    return concat(ascii('para'), zeros(4), uint16(0), uint16(0), s15Fixed16(curve.exponent));
  if (curve.kind === 'srgb') {
    // Function 3: (a·x + b)^g from d up, c·x below. IEC 61966-2-1.
    const numbers = [2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045];
    return concat(ascii('para'), zeros(4), uint16(3), uint16(0), ...numbers.map(s15Fixed16));
  }
  const samples = Array.from(curve.values, (v) => uint16(Math.round(Math.min(1, Math.max(0, v)) * 65535)));
  return concat(ascii('curv'), zeros(4), uint32(samples.length), ...samples);
}

/** multiLocalizedUnicodeType with one record, English. */
export function textType(text: string): Uint8Array {
  const letters = Array.from(text, (c) =>
    Array.from({ length: c.length }, (_, i) => uint16(c.charCodeAt(i))),
  ).flat();
  return concat(
    ascii('mluc'),
    zeros(4),
    uint32(1),
    uint32(12),
    ascii('enUS'),
    uint32(2 * letters.length),
    uint32(28),
    ...letters,
  );
}

function toFixed(v: number): number {
  return Math.round(v * 65536);
}

function s15Fixed16(v: number): Uint8Array {
  return uint32(toFixed(v) >>> 0);
}

function uint32(v: number): Uint8Array {
  return Uint8Array.of(v >>> 24, v >>> 16, v >>> 8, v);
}

export function uint16(v: number): Uint8Array {
  return Uint8Array.of(v >>> 8, v);
}

function ascii(text: string): Uint8Array {
  return Uint8Array.from(text, (c) => c.charCodeAt(0));
}

function zeros(count: number): Uint8Array {
  return new Uint8Array(count);
}

function concat(...parts: readonly Uint8Array[]): Uint8Array {
  const out = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    out.set(part, at);
    at += part.length;
  }
  return out;
}
