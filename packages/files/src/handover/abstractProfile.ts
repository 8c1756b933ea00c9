import { type Recipe, stepRunner, tableSteps } from '@halflight/engine';
import { assemble, textType, uint16, whitePoint } from '../icc/write.ts';
import { FileTrouble } from '../trouble.ts';
import { holdsEdit } from './holdAbstract.ts';
import { labInto, lightInto } from './lab.ts';

/** Places a side of the table. */
const SIZE = 33;
/** Places of the curve that brings a* and b* to the table. */
const CURVE = 2049;
/** How much finer the table is at grey than at the ends: slope 1 + BEND there. */
const BEND = 2;

/**
 * An edit as an ICC abstract profile (version 4.3, CIELAB to CIELAB through a 16-bit table), which programs with
 * colour management apply between a picture's profile and that of its target. Steps that work in an area are left
 * out. Colours are not held to any gamut here: the target's own profile does that. The bytes are read again before
 * anybody gets them.
 *
 * @throws FileTrouble when they do not read back as they were meant
 *
 * Source: ICC.1:2010, sections 8.7 (abstract profiles) and 10.10 (lut16Type, with the older coding of CIELAB that
 * section 6.3.4.2 prescribes for it).
 */
export function writeAbstractProfile(recipe: Recipe, title: string): Uint8Array {
  const bytes = assemble(
    [
      ['desc', textType(title)],
      ['cprt', textType('No rights are reserved in this table')],
      ['wtpt', whitePoint()],
      ['A2B0', tableOf(recipe)],
    ],
    'abstLab Lab ',
  );
  if (holdsEdit(bytes, recipe)) return bytes;
  throw new FileTrouble(
    'write',
    'The abstract profile did not read back as it was meant.',
    'Nothing was kept. Please tell the makers of Halflight.',
  );
}

function tableOf(recipe: Recipe): Uint8Array {
  const { held } = tableSteps(recipe);
  const run = stepRunner(
    held.steps,
    held.steps.map(() => null),
  );
  const none = new Float64Array(0);
  const clut = new Uint16Array(3 * SIZE ** 3);
  const lab = new Float64Array(3);
  const light = new Float64Array(3);
  let at = 0;
  for (let i = 0; i < SIZE; i++)
    for (let j = 0; j < SIZE; j++)
      for (let k = 0; k < SIZE; k++, at += 3) {
        lab[0] = lightnessAt(i / (SIZE - 1));
        lab[1] = chromaAt(j / (SIZE - 1));
        lab[2] = chromaAt(k / (SIZE - 1));
        lightInto(light, 0, lab[0], lab[1], lab[2]);
        if (run(light, 0, none, 0) && light.every(Number.isFinite))
          labInto(lab, 0, light[0], light[1], light[2]);
        clut[at] = held16(652.8 * lab[0]);
        clut[at + 1] = held16(256 * (lab[1] + 128));
        clut[at + 2] = held16(256 * (lab[2] + 128));
      }
  const straight = Array.from({ length: CURVE }, (_, i) => (65535 * i) / (CURVE - 1));
  const bent = straight.map((v) => 65535 * placeOf(v / 256 - 128));
  const head = [3, 3, SIZE, 0];
  const identity = [1, 0, 0, 0, 1, 0, 0, 0, 1].flatMap((v) => [v, 0]); // s15Fixed16 as two words
  const words = [
    ...identity,
    CURVE,
    2,
    ...straight,
    ...bent,
    ...bent,
    ...clut,
    ...[0, 65535, 0, 65535, 0, 65535],
  ];
  const out = new Uint8Array(12 + 2 * words.length);
  out.set([...'mft2'].map((c) => c.charCodeAt(0)));
  out.set(head, 8);
  for (let i = 0; i < words.length; i++) out.set(uint16(Math.round(words[i])), 12 + 2 * i);
  return out;
}

/** L* of a share of the coded range: code 65280 is 100. */
function lightnessAt(share: number): number {
  return (65535 * share) / 652.8;
}

/** a* or b* of a place 0…1 of the table, finer at grey. */
function chromaAt(place: number): number {
  const v = Math.abs(2 * place - 1);
  return Math.sign(2 * place - 1) * 128 * (v / (1 + BEND - BEND * v));
}

/** The inverse of `chromaAt`. */
function placeOf(chroma: number): number {
  const s = Math.min(1, Math.abs(chroma) / 128);
  return 0.5 + (Math.sign(chroma) / 2) * (((1 + BEND) * s) / (1 + BEND * s));
}

function held16(v: number): number {
  return Math.min(65535, Math.max(0, Math.round(v)));
}
