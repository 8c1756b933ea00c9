import { deflateSync } from 'node:zlib';
import { EMPTY_RECIPE, type Recipe } from '@halflight/engine';
import { describe, expect, test } from 'vitest';
import { writeAbstractProfile } from '../../src/handover/abstractProfile.ts';
import { holdsEdit } from '../../src/handover/holdAbstract.ts';
import { holdCss, holdJson, holdMarkup, holdPdf, holdRecipe } from '../../src/handover/readBack.ts';

const CSS = '/* Ferry */\n:root {\n  --dark-blue: #203040; /* 60 % */\n  --grey: #808080; /* 40 % */\n}\n';
const SVG = '<svg xmlns="http://www.w3.org/2000/svg"><title>Ferry</title><rect fill="#203040"/></svg>';
const HTML =
  '<!DOCTYPE html>\n<html lang="en"><head><meta charset="utf-8"><title>Ferry</title></head><body><h1>Ferry</h1><img src="data:," alt="a &gt; b"></body></html>';
const MEANT = { palette: { share: 0.123457, name: 'grey' } };

const EDIT: Recipe = {
  ...EMPTY_RECIPE,
  steps: [
    { kind: 'exposure', on: true, strength: 1, values: { stops: 0.5 } },
    { kind: 'hueTurn', on: true, strength: 0.5, values: { degrees: 40 } },
  ],
};

/** Files of one kind: as meant, and each with something of it damaged. */
const TEXTS: [string, string, (text: string) => void, [string, string][]][] = [
  [
    'JSON',
    JSON.stringify(MEANT),
    (text) => holdJson(text, MEANT, 'x'),
    [
      ['grey', 'gray'],
      ['{"s', '("s'],
    ],
  ],
  [
    'an edit',
    JSON.stringify(EDIT),
    (text) => holdRecipe(text, EDIT, 'x'),
    [
      ['40', '41'],
      ['"stops":0.5', '"stops":50'],
      ['hueTurn', 'hueTorn'],
    ],
  ],
  [
    'CSS',
    CSS,
    (text) => holdCss(text, ['#203040', '#808080'], 'x'),
    [
      ['#808', '#809'],
      ['}', ')'],
      ['--grey', '-grey'],
    ],
  ],
  [
    'SVG',
    SVG,
    (text) => holdMarkup(text, { counts: { rect: 1 }, texts: ['Ferry'], fills: ['#203040'] }, 'x'),
    [
      ['<rect', '<rekt'],
      ['Ferry', 'Ferny'],
      ['#2', '#3'],
      ['</svg>', '</svh>'],
    ],
  ],
  [
    'HTML',
    HTML,
    (text) => holdMarkup(text, { counts: { h1: 1, img: 1 }, texts: ['Ferry', 'Ferry'] }, 'x'),
    [
      ['<h1', '<h2'],
      ['</body', '</bodi'],
      ['<img', '<imh'],
      ['Ferry</h1', 'Firry</h1'],
    ],
  ],
];

describe.each(TEXTS)('%s', (_, text, hold, damages) => {
  test('as meant passes', () => expect(() => hold(text)).not.toThrow());
  test.each(damages)('%s damaged to %s is refused', (from, to) => {
    expect(text).toContain(from);
    expect(() => hold(text.replace(from, to))).toThrow('did not read back');
  });
});

describe('an abstract profile', () => {
  const profile = writeAbstractProfile(EDIT, 'edit');
  test('holds the edit, and no other one', () => {
    expect(holdsEdit(profile, EDIT)).toBe(true);
    expect(holdsEdit(profile, { ...EDIT, steps: EDIT.steps.slice(0, 1) })).toBe(false);
    expect(holdsEdit(writeAbstractProfile(EMPTY_RECIPE, 'none'), EMPTY_RECIPE)).toBe(true);
  });
  // Header: size, class, signature; the place of the table; a place of the table, its last place, the end of a curve.
  test.each([0, 12, 36, 132 + 4 * 9 + 4, profile.length - 12 - 6, profile.length - 2])(
    'damaged at %i is refused',
    (at) => {
      const damaged = profile.slice();
      damaged[at] ^= 0x41;
      expect(holdsEdit(damaged, EDIT)).toBe(false);
    },
  );
});

/** The smallest PDF with one page and one compressed stream (ISO 32000-1, section 7.5). */
function pdf(): Buffer {
  const packed = deflateSync(Buffer.from('0 0 10 10 re f'));
  const stream = `<< /Length ${packed.length} /Filter /FlateDecode >>\nstream\n${packed.toString('latin1')}\nendstream`;
  const bodies = ['<< /Type /Catalog /Pages 2 0 R >>', '<< /Type /Pages /Kids [3 0 R] /Count 1 >>'];
  bodies.push('<< /Type /Page /Parent 2 0 R /Contents 4 0 R >>', stream);
  let out = '%PDF-1.7\n';
  const places = bodies.map((body, k) => {
    const at = out.length;
    out += `${k + 1} 0 obj\n${body}\nendobj\n`;
    return `${String(at).padStart(10, '0')} 00000 n \n`;
  });
  const start = out.length;
  out += `xref\n0 5\n0000000000 65535 f \n${places.join('')}trailer\n<< /Size 5 /Root 1 0 R >>\nstartxref\n${start}\n%%EOF\n`;
  return Buffer.from(out, 'latin1');
}

describe('PDF', () => {
  test('as meant passes, with another number of pages not', async () => {
    await expect(holdPdf(pdf(), 1, 'x')).resolves.toBeUndefined();
    await expect(holdPdf(pdf(), 2, 'x')).rejects.toThrow('did not read back');
  });
  test.each<[string, number]>([
    ['%PDF', 1],
    ['3 0 obj', 0],
    ['/Page /Parent', 1],
    ['stream\n', 12],
    ['\nendstream', 2],
    ['xref\n0 5', 0],
    ['00000 n', -3],
    ['startxref', 11],
  ])('a damaged byte at %s is refused', async (mark, off) => {
    const bytes = pdf();
    const at = bytes.indexOf(mark) + off;
    bytes[at] ^= 1;
    await expect(holdPdf(bytes, 1, 'x')).rejects.toThrow('did not read back');
  });
});
