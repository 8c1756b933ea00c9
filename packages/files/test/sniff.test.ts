import { describe, expect, test } from 'vitest';
import { endingNote, sniff } from '../src/sniff.ts';

const bytes = (text: string, size = 64) => {
  const out = new Uint8Array(size);
  Buffer.from(text, 'latin1').copy(out);
  return out;
};

describe('formats are told by content', () => {
  test.each([
    ['\x89PNG\r\n\x1a\n', 'png'],
    ['\xff\xd8\xff\xe0', 'jpeg'],
    ['RIFF\x20\0\0\0WEBPVP8 ', 'webp'],
    ['II*\0', 'tiff'],
    ['MM\0*', 'tiff'],
    ['GIF89a', 'gif'],
    ['\0\0\0\x1cftypavif\0\0\0\0avifmif1miaf', 'avif'],
    ['\0\0\0\x1cftypmif1\0\0\0\0mif1avifmiaf', 'avif'],
  ])('%j is %s', (text, format) => {
    expect(sniff(bytes(text), 'x.txt').picture).toBe(format);
  });
});

describe('what can’t be read says what it is and what to do', () => {
  test.each([
    ['', 0, 'empty', /0 bytes/, /again/],
    ['\0\0\0\x18ftypheic\0\0\0\0mif1heic', 64, 'format', /HEIC/, /JPEG/],
    ['\0\0\0\x18ftypmif1\0\0\0\0mif1heic', 64, 'format', /HEIC/, /JPEG/],
    ['\0\0\0\x18ftypisom\0\0\0\0isomiso2', 64, 'not-a-picture', /film/, /PNG/],
    ['BM\x36\x20', 64, 'format', /BMP/, /PNG/],
    ['8BPS\0\x01', 64, 'format', /layered/, /flat/],
    ['%PDF-1.7', 64, 'format', /PDF/, /PNG/],
    ['\xff\x0a\xfa', 64, 'format', /JPEG XL/, /PNG/],
    ['PK\x03\x04', 64, 'not-a-picture', /ZIP/, /PNG/],
    [`PK\x03\x04${'\0'.repeat(26)}mimetypeimage/openraster`, 99, 'format', /OpenRaster/, /flat/],
    ['<svg xmlns="http://www.w3.org/2000/svg"/>', 41, 'format', /SVG/, /PNG/],
    ['<?xml version="1.0"?>\n<svg/>', 28, 'format', /SVG/, /PNG/],
    ['Dear diary,\n', 12, 'not-a-picture', /text/, /PNG/],
    ['K\xe4se', 64, 'format', /not a kind/, /PNG/],
    ['\x89PNG', 4, 'damaged', /cut off/, /again/],
    ['\xff\xd8', 2, 'damaged', /cut off/, /again/],
  ] as const)('%j', (text, size, kind, what, todo) => {
    const found = sniff(bytes(text, size), 'thing.png');
    if (found.picture !== null) throw new Error(`taken for ${found.picture}`);
    expect(found.trouble.kind).toBe(kind);
    expect(found.trouble.sentence).toMatch(what);
    expect(found.trouble.sentence).toContain('“thing.png”');
    expect(found.trouble.todo).toMatch(todo);
  });
  test('text in another script is still text', () => {
    const found = sniff(new TextEncoder().encode('潮が引いた夜明けの桟橋'.repeat(40)), 'a.png');
    expect(found.picture === null && found.trouble.sentence).toMatch(/text/);
  });
});

describe('a wrong ending is noted', () => {
  test.each([
    ['a.png', 'png', null],
    ['a.JPG', 'jpeg', null],
    ['a', 'png', null],
    ['ferry v1.2 final', 'png', null],
    ['a.jpg', 'png', /is a PNG picture although its name ends in “.jpg”/],
    ['a.txt', 'avif', /is an AVIF/],
  ] as const)('%s as %s', (name, format, note) => {
    const said = endingNote(name, format);
    if (note === null) expect(said).toBeNull();
    else expect(said).toMatch(note);
  });
});
