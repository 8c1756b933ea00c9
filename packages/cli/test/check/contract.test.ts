import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { READINGS } from '@halflight/engine';
import sharp from 'sharp';
import { beforeAll, describe, expect, test } from 'vitest';
import { halflight, newFolder, paintDusk } from '../commandLine.ts';

const folder = newFolder();
const at = (name: string): string => join(folder, name);
const lines = (text: string) =>
  text
    .trimEnd()
    .split('\n')
    .map((line) => JSON.parse(line));

beforeAll(async () => {
  await paintDusk(at('one.png'));
  await paintDusk(at('two.jpg'), 90, 60);
  await paintDusk(at('large.png'), 2400, 1200);
  writeFileSync(at('notes.png'), 'Only words.');
});

describe('check --json', () => {
  test('prints one object a picture and line, in the order of the arguments', async () => {
    const { code, stdout, stderr } = await halflight(['check', '--json', at('two.jpg'), at('one.png')]);
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    expect(lines(stdout).map((line) => [line.schema, line.picture.name])).toEqual([
      ['halflight/check@1', 'two.jpg'],
      ['halflight/check@1', 'one.png'],
    ]);
  });

  // sharp's own metadata is the outside reference for what the file is.
  test('says of the picture what the file says', async () => {
    const { stdout } = await halflight(['check', '--json', at('one.png')]);
    const { width, height, depth } = await sharp(at('one.png')).metadata();
    const [{ picture }] = lines(stdout);
    expect(picture).toMatchObject({ width, height, depth: depth === 'uchar' ? 8 : 16 });
    expect(picture.profile).toContain('sRGB');
  });

  test('has every reading of the engine, each with how sure it is', async () => {
    const { stdout } = await halflight(['check', '--json', at('one.png')]);
    const [{ readings }] = lines(stdout);
    expect(Object.keys(readings)).toEqual(READINGS.map((kind) => kind.id));
    for (const reading of Object.values<{ evidence: string }>(readings))
      expect(['strong', 'fair', 'weak']).toContain(reading.evidence);
  });

  test('ranks the findings, each with reading, severity, sentence and what to do', async () => {
    const { stdout } = await halflight(['check', '--json', at('one.png')]);
    const [{ findings }] = lines(stdout);
    const severities = findings.map((finding: { severity: number }) => finding.severity);
    expect(severities).toEqual([...severities].sort((a, b) => b - a));
    for (const { reading, severity, text, todo } of findings) {
      expect(READINGS.map((kind) => kind.id)).toContain(reading);
      expect(severity).toBeGreaterThanOrEqual(0);
      expect(severity).toBeLessThanOrEqual(1);
      expect(text).toMatch(/[.!?]$/);
      expect(todo).toMatch(/[.!?]$/);
    }
  });

  test('gives a line with an error for a picture that can’t be read, and does the others', async () => {
    const { code, stdout, stderr } = await halflight(['check', '--json', at('notes.png'), at('one.png')]);
    expect(code).toBe(1);
    const [broken, whole] = lines(stdout);
    expect(broken).toMatchObject({ schema: 'halflight/check@1', picture: { name: 'notes.png' } });
    expect(broken.error).toContain('notes.png');
    expect(broken).not.toHaveProperty('readings');
    expect(whole).toHaveProperty('readings');
    expect(stderr).toContain('notes.png');
  });

  // Two threads share a large picture when it comes alone; several pictures have a thread each.
  test('reads the same alone and among others', async () => {
    const alone = await halflight(['check', '--json', at('large.png')]);
    const among = await halflight(['check', '--json', at('large.png'), at('one.png')]);
    expect(alone.stdout.trimEnd()).toBe(among.stdout.split('\n')[0]);
  });
});

describe('check --maps', () => {
  test('writes every map of the readings in 8-bit grey at close-view size', async () => {
    const { code } = await halflight(['check', '--maps', at('maps'), at('large.png'), at('one.png')]);
    expect(code).toBe(0);
    const suffixes = READINGS.flatMap((kind) => Object.values(kind.mapFiles));
    for (const suffix of suffixes) {
      const small = await sharp(at(`maps/one.${suffix}.png`)).metadata();
      expect(small).toMatchObject({ width: 120, height: 80, channels: 1, depth: 'uchar', space: 'b-w' });
      const { width, height } = await sharp(at(`maps/large.${suffix}.png`)).metadata();
      expect(width * height).toBeLessThanOrEqual(1_500_000);
      expect(width * height).toBeGreaterThan(1_480_000);
    }
  });
});

describe('check --intent and --baseline', () => {
  test('take what was decided into account', async () => {
    writeFileSync(
      at('intent.json'),
      JSON.stringify({ schema: 'halflight/intent@1', light: { kind: 'asRead' }, hue: { families: [] } }),
    );
    const { code, stdout } = await halflight(['check', '--intent', at('intent.json'), at('one.png')]);
    expect(code).toBe(0);
    expect(stdout).toContain('Not decided yet: the mood and the focus.');
  });

  test.each([
    ['--intent', '{"schema":"halflight/intent@1","moood":{}}', '“moood” is not known here'],
    ['--intent', 'not JSON', 'no JSON'],
    ['--baseline', '{"schema":"halflight/intent@1"}', '“schema” should be "halflight/baseline@1"'],
  ])('%s refuses %s', async (option, text, sentence) => {
    writeFileSync(at('wrong.json'), text);
    const { code, stdout, stderr } = await halflight(['check', option, at('wrong.json'), at('one.png')]);
    expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
    expect(stderr).toContain(sentence);
  });

  test.each(['--intent', '--baseline'])('%s says when the file is missing', async (option) => {
    const { code, stderr } = await halflight(['check', option, at('nowhere.json'), at('one.png')]);
    expect(code).toBe(2);
    expect(stderr).toContain('there is no such file');
  });
});

describe('check in text', () => {
  test('speaks to painters: none of our inner words', async () => {
    const { stdout } = await halflight(['check', at('large.png'), at('two.jpg')]);
    expect(stdout).not.toMatch(/\b(evidence|census|recipe|OKLCh|threshold)\b/i);
  });

  test('says once that the eye decides', async () => {
    const { stdout } = await halflight(['check', at('one.png'), at('two.jpg')]);
    expect(stdout.match(/the eye decides/g)).toHaveLength(1);
  });

  test('has no quarrel with a reader that leaves early', async () => {
    const pictures = Array<string>(40).fill(at('two.jpg'));
    const { code, stderr } = await halflight(['check', '--json', ...pictures], {}, 1);
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
  });
});

test('the pictures themselves are not touched', async () => {
  const before = readFileSync(at('one.png'));
  await halflight(['check', '--maps', folder, at('one.png')]);
  expect(readFileSync(at('one.png'))).toEqual(before);
});
