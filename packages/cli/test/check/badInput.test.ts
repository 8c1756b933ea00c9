import { chmodSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import sharp, { type Color } from 'sharp';
import { beforeAll, describe, expect, test } from 'vitest';
import { halflight, newFolder, paintDusk, type Ran } from '../commandLine.ts';

const folder = newFolder();
const at = (name: string): string => join(folder, name);
const flat = (width: number, height: number, background: Color) =>
  sharp({ create: { width, height, channels: 4, background } });

beforeAll(async () => {
  await paintDusk(at('good.png'));
  const good = readFileSync(at('good.png'));
  writeFileSync(at('truncated.png'), good.subarray(0, good.length / 2));
  writeFileSync(at('empty.png'), '');
  writeFileSync(at('words.png'), 'Only words in here.\n');
  writeFileSync(at('locked.png'), good);
  chmodSync(at('locked.png'), 0);
  mkdirSync(at('folder.png'));
  writeFileSync(at('wrong-extension.jpg'), good);
  await flat(1, 1, { r: 90, g: 40, b: 20, alpha: 1 }).png().toFile(at('one-pixel.png'));
  await flat(40, 30, { r: 90, g: 40, b: 20, alpha: 0 }).png().toFile(at('transparent.png'));
  await flat(40, 30, { r: 90, g: 40, b: 20, alpha: 1 }).png().toFile(at('one-colour.png'));
  await flat(40, 30, { r: 0, g: 0, b: 0, alpha: 1 }).png().toFile(at('black.png'));
  const frames = Buffer.concat([16, 200].map((v) => Buffer.alloc(20 * 20 * 3, v)));
  await sharp(frames, { raw: { width: 20, height: 40, channels: 3, pageHeight: 20 } })
    .gif({ delay: [200, 200] })
    .toFile(at('animated.gif'));
  const deep = Uint16Array.from({ length: 3 * 60 * 40 }, (_, i) => (i * 977) % 65536);
  await sharp(deep, { raw: { width: 60, height: 40, channels: 3 } })
    .toColourspace('rgb16')
    .withIccProfile('srgb')
    .png()
    .toFile(at('deep.png'));
  writeFileSync(at('broken-profile.png'), withBrokenProfile(readFileSync(at('deep.png'))));
});

/** Puts zeros over the compressed profile of a PNG and leaves the chunk's check sum right. */
function withBrokenProfile(png: Buffer): Buffer {
  const start = png.indexOf('iCCP');
  const length = png.readUInt32BE(start - 4);
  const damaged = Buffer.from(png);
  damaged.fill(0, start + 4 + Math.floor(length / 2), start + 4 + length);
  damaged.writeUInt32BE(crc32(damaged.subarray(start, start + 4 + length)), start + 4 + length);
  return damaged;
}

/** CRC of PNG chunks (ISO/IEC 15948 annex D). */
function crc32(bytes: Uint8Array): number {
  let crc = ~0;
  for (const byte of bytes) {
    crc ^= byte;
    for (let k = 0; k < 8; k++) crc = crc & 1 ? (crc >>> 1) ^ 0xedb88320 : crc >>> 1;
  }
  return ~crc >>> 0;
}

const root = process.getuid?.() === 0;

describe('pictures that can’t be read', () => {
  const kinds = [
    ['truncated.png', /damaged|cut off/],
    ['empty.png', /empty/],
    ['words.png', /not a picture|can’t be read/],
    ['folder.png', /is a folder/],
    ['missing.png', /no file/],
    ...(root ? [] : [['locked.png', /may not be read/] as const]),
  ] as const;
  let ran: Ran;
  beforeAll(async () => {
    ran = await halflight(['check', '--json', ...kinds.map(([name]) => at(name)), at('good.png')]);
  });

  test('the next one is done', () => {
    expect(ran.code).toBe(1);
    expect(ran.stderr).not.toMatch(/^\s+at /m);
    const lines = ran.stdout.trimEnd().split('\n');
    expect(lines).toHaveLength(kinds.length + 1);
    expect(JSON.parse(lines.at(-1)!).picture.name).toBe('good.png');
  });

  test.each(kinds.map(([name, sentence], index) => [name, sentence, index] as const))(
    '%s gets a sentence',
    (_, sentence, index) => {
      expect(ran.stderr).toMatch(sentence);
      expect(JSON.parse(ran.stdout.split('\n')[index]).error).toMatch(sentence);
    },
  );

  test('alone it ends with 1 and no report', async () => {
    const { code, stdout, stderr } = await halflight(['check', at('empty.png')]);
    expect({ code, stdout }).toEqual({ code: 1, stdout: '' });
    expect(stderr).toContain('“empty.png” is empty');
  });

  test('beyond the limit it says the limit', async () => {
    await sharp({ create: { width: 1200, height: 1000, channels: 3, background: '#345' } })
      .png()
      .toFile(at('wide.png'));
    const { code, stderr } = await halflight(['check', '--limit', '1', at('wide.png')]);
    expect(code).toBe(1);
    expect(stderr).toMatch(/the limit is 1\b/);
  });
});

describe('odd pictures are read without trouble', () => {
  const kinds = [
    ['one-pixel.png', 1, 1],
    ['transparent.png', 40, 30],
    ['one-colour.png', 40, 30],
    ['black.png', 40, 30],
    ['animated.gif', 20, 20],
    ['wrong-extension.jpg', 120, 80],
    ['broken-profile.png', 60, 40],
  ] as const;
  const all = kinds.map(([name]) => at(name));

  test('as JSON', async () => {
    const { code, stdout, stderr } = await halflight(['check', '--json', ...all]);
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    for (const [index, line] of stdout.trimEnd().split('\n').entries()) {
      const [name, width, height] = kinds[index];
      expect(JSON.parse(line).picture, name).toMatchObject({ width, height });
    }
  });

  test('as text in colour', async () => {
    const { code, stdout, stderr } = await halflight(['check', ...all], { FORCE_COLOR: '3' });
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    expect(stdout).not.toMatch(/NaN|undefined|Infinity|null/);
    for (const [name] of kinds) expect(stdout).toContain(name);
  });
});

describe('wrong use', () => {
  test.each([
    [['check'], /missing required argument/],
    [['check', '--colour', 'good.png'], /unknown option/],
    [['check', '--limit', 'many', 'good.png'], /whole number/],
    [['chekc', 'good.png'], /unknown command.*\n?.*check/],
    [['app', '--port', '99999'], /0 to 65535/],
    [['app', 'now'], /too many arguments/],
  ])('%j ends with 2 and says where help is', async (args, sentence) => {
    const { code, stdout, stderr } = await halflight(args);
    expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
    expect(stderr).toMatch(sentence);
    expect(stderr).toContain('--help');
  });

  test('a folder for maps that is a file is named', async () => {
    const { code, stderr } = await halflight(['check', '--maps', at('good.png'), at('good.png')]);
    expect(code).toBe(2);
    expect(stderr).toContain('can’t be made');
  });

  test('no command at all shows the commands', async () => {
    const { code, stderr } = await halflight([]);
    expect(code).toBe(2);
    expect(stderr).toMatch(/check .*\n.*app /s);
  });
});

describe('help', () => {
  test.each([[[]], [['check']], [['app']]])('%j has an example', async (command) => {
    const { code, stdout } = await halflight([...command, '--help']);
    expect(code).toBe(0);
    expect(stdout).toMatch(/Examples?:\n {2}halflight /);
  });
});
