import { ciede2000 } from '../colour/ciede2000.ts';
import { linearToCielab } from '../colour/cielab.ts';
import { fromSrgb } from '../colour/gamut.ts';
import { gamutMapper } from '../colour/gamutMapper.ts';
import { type Triple, transform } from '../colour/matrix.ts';
import { DELIVERY_SPACES } from '../colour/rgbSpaces.ts';
import type { ColourSpace } from '../colour/space.ts';
import { decode, encode } from '../colour/transfer.ts';
import { stepRunner } from '../edits/compile.ts';
import { stepKind } from '../edits/list.ts';
import type { Recipe } from '../edits/step.ts';
import type { HandoverSettings } from './settings.ts';
import { workingSteps } from './stages.ts';

export type DeliverySpace = keyof typeof DELIVERY_SPACES;

/** An edit as a table of colours: code values of a space in, code values of the same space out. */
export interface RecipeTable {
  /** Places a side. */
  readonly size: number;
  readonly space: DeliverySpace;
  /** Code values 0…1 of `space`, three a place; red changes fastest, blue slowest. */
  readonly data: Float32Array;
  /** Steps that are in the table, in words. */
  readonly holds: readonly string[];
  /** Steps that work in an area only: no table of colours can hold them. */
  readonly leftOut: readonly string[];
  /** How far the table, read as programs read it, lies from the edit itself on the colours between its places. */
  readonly off: { readonly median: number; readonly p95: number; readonly most: number };
}

/** Steps of a recipe that a table of colours can hold, and the titles of those it can't. */
export function tableSteps(recipe: Recipe): {
  readonly held: Recipe;
  readonly leftOut: readonly string[];
} {
  const works = workingSteps(recipe);
  const inArea = works.filter((step) => step.area && step.area.parts.length > 0);
  return {
    held: { schema: 'halflight/recipe@1', steps: works.filter((step) => !inArea.includes(step)) },
    leftOut: inArea.map((step) => stepKind(step.kind).title),
  };
}

/** The space whose code values a table takes: that of the file, or of the picture; sRGB where it is none of ours. */
export function tableSpace(wanted: HandoverSettings['space'], own: ColourSpace): DeliverySpace {
  if (typeof wanted === 'string' && wanted !== 'own') return wanted;
  if (wanted !== 'own') return 'srgb';
  const known = Object.entries(DELIVERY_SPACES).find(([, space]) => space === own);
  return (known?.[0] as DeliverySpace | undefined) ?? 'srgb';
}

/**
 * A sentence where a table takes other code values than its file has; null where they are the same.
 */
export function tableNote(wanted: HandoverSettings['space'], own: ColourSpace): string | null {
  const space = DELIVERY_SPACES[tableSpace(wanted, own)];
  const same = typeof wanted === 'string' && (wanted !== 'own' || space === own);
  return same
    ? null
    : `The lookup table takes and gives code values of ${space.name}, not of the file: bring a picture to ${space.name} before it. The abstract profile works between any two profiles.`;
}

/** Makes a table of an edit by the edit's own kernel. The default size is what programs commonly take. */
export function bakeTable(recipe: Recipe, space: DeliverySpace, size = 33): RecipeTable {
  const { held, leftOut } = tableSteps(recipe);
  const edit = codeEditor(held, space);
  const data = new Float32Array(3 * size ** 3);
  const one = new Float64Array(3);
  for (let b = 0, at = 0; b < size; b++)
    for (let g = 0; g < size; g++)
      for (let r = 0; r < size; r++, at += 3) {
        one[0] = r / (size - 1);
        one[1] = g / (size - 1);
        one[2] = b / (size - 1);
        edit(one);
        data.set(one, at);
      }
  const table = { size, data };
  return {
    ...table,
    space,
    holds: held.steps.map((step) => stepKind(step.kind).title),
    leftOut,
    off: offOf(table, edit, space),
  };
}

/** The edit on code values of a space, in place. */
function codeEditor(recipe: Recipe, name: DeliverySpace): (code: Float64Array) => void {
  const space = DELIVERY_SPACES[name];
  const into = fromSrgb(space);
  const hold = gamutMapper(space);
  const run = stepRunner(
    recipe.steps,
    recipe.steps.map(() => null),
  );
  const none = new Float64Array(0);
  return (code) => {
    const own: Triple = [
      decode(space.curves[0], code[0]),
      decode(space.curves[1], code[1]),
      decode(space.curves[2], code[2]),
    ];
    const light = Float64Array.from(transform(space.toSrgb, own));
    if (!run(light, 0, none, 0)) return;
    hold(light, 0);
    const out = transform(into, [light[0], light[1], light[2]]);
    for (let c = 0; c < 3; c++) code[c] = Math.min(1, Math.max(0, encode(space.curves[c], out[c])));
  };
}

/**
 * Reads a table between its places from the four corners of the tetrahedron that a colour lies in (Kasson, Nin,
 * Plouffe and Hafner 1995, "Performing color space conversions with three-dimensional linear interpolation").
 * Code values beyond 0…1 are held.
 */
export function readTable(
  { size, data }: Pick<RecipeTable, 'size' | 'data'>,
  code: Triple,
  out: Float64Array,
): void {
  const at = [0, 0, 0];
  const part = [0, 0, 0];
  for (let c = 0; c < 3; c++) {
    const v = Math.min(1, Math.max(0, code[c])) * (size - 1);
    at[c] = Math.min(size - 2, Math.floor(v));
    part[c] = v - at[c];
  }
  const strides = [3, 3 * size, 3 * size * size];
  const order = [0, 1, 2].sort((i, j) => part[j] - part[i]);
  let place = at[0] * strides[0] + at[1] * strides[1] + at[2] * strides[2];
  for (let k = 0; k < 3; k++) out[k] = (1 - part[order[0]]) * data[place + k];
  for (let i = 0; i < 3; i++) {
    place += strides[order[i]];
    const weight = part[order[i]] - (i < 2 ? part[order[i + 1]] : 0);
    for (let k = 0; k < 3; k++) out[k] += weight * data[place + k];
  }
}

/** Colours that are tried between the places. */
const TRIED = 2000;

function offOf(
  table: Pick<RecipeTable, 'size' | 'data'>,
  edit: (code: Float64Array) => void,
  name: DeliverySpace,
): RecipeTable['off'] {
  const space = DELIVERY_SPACES[name];
  const read = new Float64Array(3);
  const labOf = (code: ArrayLike<number>): Triple =>
    linearToCielab(
      transform(space.toSrgb, [
        decode(space.curves[0], code[0]),
        decode(space.curves[1], code[1]),
        decode(space.curves[2], code[2]),
      ]),
    );
  const differences = new Float64Array(TRIED);
  for (let i = 0; i < TRIED; i++) {
    // The R3 sequence (Roberts 2018) spreads colours evenly without chance.
    const code: Triple = [(0.5 + 0.8191725 * i) % 1, (0.5 + 0.6710436 * i) % 1, (0.5 + 0.5497005 * i) % 1];
    const exact = Float64Array.from(code);
    edit(exact);
    readTable(table, code, read);
    differences[i] = ciede2000(labOf(exact), labOf(read));
  }
  differences.sort();
  return {
    median: differences[TRIED >> 1],
    p95: differences[Math.floor(0.95 * TRIED)],
    most: differences[TRIED - 1],
  };
}
