/** What is known of a version: masks as small grey pictures and the amounts in numbers, for tests. */

import { FILL, KEY } from './materials.ts';
import type { Painting } from './paintVersion.ts';
import { onPicture, type Study } from './study.ts';
import type { Version } from './versions.ts';

/** A grey picture, 0…255. */
export interface Mask {
  readonly width: number;
  readonly height: number;
  readonly data: Uint8Array;
}

/** Names of the masks of a version. */
export const MASKS = ['neutral', 'opposite', 'strays', 'overworked', 'shade', 'built', 'sky'] as const;

export interface Truth {
  readonly masks: Readonly<Record<(typeof MASKS)[number], Mask>>;
  /** Written as JSON beside the picture. */
  readonly facts: Record<string, unknown>;
}

const LONGEST = 900;

/** Brings together what was planted and what the scene knows. */
export function truthOf(study: Study, version: Version, painting: Painting): Truth {
  const { planted, place } = painting;
  const lit = (f: (i: number) => number) => Float32Array.from(study.body, (_b, i) => f(i));
  const fields: Record<(typeof MASKS)[number], Float32Array> = {
    neutral: planted.neutral,
    opposite: planted.opposite,
    strays: planted.strays,
    overworked: planted.overworked,
    // How little of the key arrives against the fill, 1 = only fill.
    shade: lit((i) => (study.body[i]! < 0 ? 0 : 1 - Math.min(1, keyShare(study, i)))),
    built: lit((i) => (study.body[i]! >= 0 && !GROUND.has(study.things[study.body[i]!]!) ? 1 : 0)),
    sky: lit((i) => (study.body[i]! < 0 ? 1 : 0)),
  };
  const masks = Object.fromEntries(
    Object.entries(fields).map(([name, field]) => [name, maskOf(study, field)]),
  ) as Truth['masks'];
  const share = (f: Float32Array) => f.reduce((s, v) => s + v, 0) / f.length;
  return {
    masks,
    facts: {
      schema: 'halflight/demo-truth@1',
      picture: 'ferry landing',
      version: version.number,
      state: version.state,
      seed: study.seed,
      light: { key: KEY, fill: FILL },
      focus: onPicture(place, place.focus),
      lamps: [onPicture(place, place.lamp), onPicture(place, place.doorLamp)],
      horizon: place.horizon,
      planted: {
        neutral: version.neutral,
        opposite: version.opposite,
        tints: version.tints,
        closed: version.closed,
        overworked: version.overworked,
        nets: version.nets,
        veil: version.veil,
        air: version.air,
      },
      shares: {
        neutral: share(planted.neutral),
        opposite: share(planted.opposite),
        strays: share(planted.strays),
        overworked: share(planted.overworked),
      },
      strokes: painting.plan.strokes.count,
    },
  };
}

const GROUND = new Set(['water', 'mud', 'flats', 'spit', 'far shore']);

/** Key against key and fill, by luminance. */
function keyShare(study: Study, i: number): number {
  const y = (f: Float32Array) => 0.2126 * f[i * 3]! + 0.7152 * f[i * 3 + 1]! + 0.0722 * f[i * 3 + 2]!;
  const k = y(study.key);
  return k / (k + y(study.fill) + 1e-9);
}

/** Area average down to at most 900 pixels. */
function maskOf(study: Study, field: Float32Array): Mask {
  const scale = Math.min(1, LONGEST / Math.max(study.width, study.height));
  const width = Math.max(1, Math.round(study.width * scale));
  const height = Math.max(1, Math.round(study.height * scale));
  const data = new Uint8Array(width * height);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const x0 = Math.floor((x * study.width) / width);
      const x1 = Math.max(x0 + 1, Math.floor(((x + 1) * study.width) / width));
      const y0 = Math.floor((y * study.height) / height);
      const y1 = Math.max(y0 + 1, Math.floor(((y + 1) * study.height) / height));
      let sum = 0;
      for (let yy = y0; yy < y1; yy++) for (let xx = x0; xx < x1; xx++) sum += field[yy * study.width + xx]!;
      data[y * width + x] = Math.round((255 * sum) / ((x1 - x0) * (y1 - y0)));
    }
  return { width, height, data };
}
