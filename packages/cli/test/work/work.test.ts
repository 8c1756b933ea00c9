import { spawnSync } from 'node:child_process';
import { chmodSync, existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import sharp from 'sharp';
import { beforeAll, describe, expect, test } from 'vitest';
import { openDossierFile, saveDossierFile } from '../../../files/src/node/index.ts';
import { rawZip } from '../../../files/test/dossier/rawZip.ts';
import { halflight, newFolder, paintDusk, type Ran } from '../commandLine.ts';

const folder = newFolder();
const at = (name: string): string => join(folder, name);
const work = (...args: string[]): Promise<Ran> => halflight(['work', ...args]);
const dossier = at('ferry.halflight');

/** What each call said while the work was made. */
const said: Record<string, Ran> = {};

beforeAll(async () => {
  await paintDusk(at('ferry-1.png'), 240, 160);
  await sharp(at('ferry-1.png')).linear(0.8, 30).toFile(at('ferry-2.png'));
  await sharp(at('ferry-2.png')).flop().toFile(at('ferry-3.png'));
  writeFileSync(at('dusk.json'), JSON.stringify({ schema: 'halflight/intent@1', feel: 'Waiting.' }));
  said.new = await work('new', dossier, '--picture', at('ferry-1.png'), '--intent', at('dusk.json'));
  said.veil = await work('add', dossier, at('ferry-2.png'), '--minutes', '45');
  said.mirrored = await work('add', dossier, at('ferry-3.png'));
  said.show = await work('show', dossier, '--json');
});

describe('a work in a dossier', () => {
  test('is started, grows, and says what each version changed', () => {
    expect([said.new.code, said.veil.code, said.mirrored.code]).toEqual([0, 0, 0]);
    expect(said.new.stdout).toMatch(/^Ferry 1, version 1\n/);
    expect(said.veil.stdout).toMatch(/version 2\nFrom a distance 100 % of the picture changed/);
    expect(said.mirrored.stdout).toMatch(
      /version 3\nNothing changed|version 3\nFrom a distance nothing changed/,
    );
  });

  test('show --json gives the whole work, its curve and its findings', () => {
    const shown = JSON.parse(said.show.stdout);
    expect(shown.schema).toBe('halflight/work-show@1');
    expect(shown.work.intent.feel).toBe('Waiting.');
    expect(shown.work.versions.map((v: { minutes?: number }) => v.minutes)).toEqual([
      undefined,
      45,
      undefined,
    ]);
    const [, veil, mirrored] = shown.work.versions;
    expect(veil.change.impact).toBeGreaterThan(2);
    expect(veil.change.effort).toBeLessThan(0.1);
    expect(mirrored.change.pose.mirrored).toBe(true);
    expect(shown.progress.points.length).toBe(3);
    expect(Array.isArray(shown.findings)).toBe(true);
  });

  test('the newest version is not added again', async () => {
    const before = readFileSync(dossier);
    const { code, stdout } = await work('add', dossier, at('ferry-3.png'));
    expect([code, stdout]).toEqual([0, expect.stringMatching(/newest version already/)]);
    expect(readFileSync(dossier).equals(before)).toBe(true);
  });

  test('verify says that it is whole', async () => {
    const { code, stdout } = await work('verify', dossier);
    expect([code, stdout]).toEqual([0, expect.stringMatching(/^Whole: 3 versions, \d+ files/)]);
  });

  test('export gives the originals back, byte for byte, and overwrites nothing', async () => {
    const { code, stdout } = await work('export', dossier, '--out', at('out'));
    expect(code).toBe(0);
    expect(stdout.trim().split('\n').length).toBe(8);
    for (const k of [1, 2, 3])
      expect(readFileSync(at(`out/0${k}-ferry-${k}.png`)).equals(readFileSync(at(`ferry-${k}.png`)))).toBe(
        true,
      );
    expect(JSON.parse(readFileSync(at('out/02-ferry-2.png.readings.json'), 'utf8')).schema).toBe(
      'halflight/check@1',
    );
    expect(JSON.parse(readFileSync(at('out/intent.json'), 'utf8')).feel).toBe('Waiting.');
    const again = await work('export', dossier, '--out', at('out'));
    expect([again.code, again.stderr]).toEqual([2, expect.stringMatching(/not empty/)]);
  });
});

describe('what was meant to be done is asked for', () => {
  /** A dusk whose lower part is black up to this share of the height. */
  async function night(name: string, black: number): Promise<void> {
    const overlay = await sharp({
      create: { width: 240, height: Math.round(160 * black), channels: 3, background: '#000' },
    })
      .png()
      .toBuffer();
    await sharp(at('strokes.png'))
      .composite([{ input: overlay, gravity: 'south' }])
      .toFile(at(name));
  }

  test('still there, then smaller, then gone; about a place by how much of it is left', async () => {
    // Versions are known by their strokes: a dusk of dabs, each by chance lighter or darker.
    let seed = 7;
    const dabs = Array.from({ length: 40 * 40 }, () => {
      seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
      return 45 * (seed / 2 ** 32);
    });
    const strokes = Buffer.from(
      Array.from({ length: 240 * 160 }, (_, p) => {
        const [x, y] = [p % 240, Math.floor(p / 240)];
        const dab = dabs[40 * Math.floor(y / 4) + Math.floor(x / 6)];
        return [60 + dab + y / 3, 70 + dab, 120 - y / 4 + dab];
      }).flat(),
    );
    await sharp(strokes, { raw: { width: 240, height: 160, channels: 3 } }).toFile(at('strokes.png'));
    await night('night-1.png', 0.5);
    await night('night-2.png', 0.48);
    await night('night-3.png', 0.1);
    const file = at('night.halflight');
    await work('new', file, '--picture', at('night-1.png'));
    const older = await openDossierFile(file);
    const readings = JSON.parse(
      new TextDecoder().decode(await older.bytes(older.work.versions[0].readings!)),
    );
    const darks = readings.findings.find((f: { key: string }) => f.key === 'headroom.darks');
    const answer = {
      key: 'headroom.darks',
      kind: 'willDo' as const,
      reading: 'headroom' as const,
      severity: darks.severity,
      sentence: darks.text,
      version: 1,
      at: '2026-03-01T10:00:00.000Z',
    };
    const place = { ...answer, outline: [0, 0.5, 1, 0.5, 1, 1, 0, 1] };
    await saveDossierFile(file, {
      older,
      work: { ...older.work, answers: [answer, place] },
      things: [],
      writer: 'test',
      written: answer.at,
    });
    await older.close();
    const outcomes: string[][] = [];
    for (const name of ['night-2.png', 'night-3.png', 'strokes.png']) {
      await work('add', file, at(name));
      const shown = JSON.parse((await work('show', file, '--json')).stdout);
      outcomes.push(shown.work.answers.map((a: { outcome: { state: string } }) => a.outcome.state));
    }
    expect(outcomes).toEqual([
      ['still', 'still'],
      ['smaller', 'smaller'],
      ['gone', 'gone'],
    ]);
    expect((await work('show', file)).stdout).toMatch(/You meant to do\n {2}Darks are closed.*gone\./s);
  });
});

describe('has a sentence for', () => {
  test('a dossier that is there already', async () => {
    const { code, stderr } = await work('new', dossier, '--picture', at('ferry-1.png'));
    expect([code, stderr]).toEqual([1, expect.stringMatching(/is there already/)]);
  });

  test('a dossier cut off, and one with a changed picture, of which the rest still comes out', async () => {
    const bytes = readFileSync(dossier);
    writeFileSync(at('cut.halflight'), bytes.subarray(0, bytes.length - 200));
    const cut = await work('add', at('cut.halflight'), at('ferry-1.png'));
    expect([cut.code, cut.stderr]).toEqual([
      1,
      expect.stringMatching(/cut\.halflight” is damaged or cut off/),
    ]);

    const place = bytes.indexOf(readFileSync(at('ferry-1.png')).subarray(0, 200));
    bytes[place + 120] ^= 255;
    writeFileSync(at('changed.halflight'), bytes);
    const verified = await work('verify', at('changed.halflight'), '--json');
    expect([verified.code, JSON.parse(verified.stdout).whole]).toEqual([1, false]);
    const out = await work('export', at('changed.halflight'), '--out', at('rest'));
    expect([out.code, out.stderr]).toEqual([1, expect.stringMatching(/its checksum differs/)]);
    expect(existsSync(at('rest/01-ferry-1.png'))).toBe(false);
    expect(existsSync(at('rest/02-ferry-2.png'))).toBe(true);
  });

  test('names that lead outside: nothing is written there', async () => {
    writeFileSync(at('evil.halflight'), readFileSync(dossier));
    const made = spawnSync('python3', [
      '-c',
      `import sys, zipfile
with zipfile.ZipFile(sys.argv[1], 'a') as z: z.writestr('../../escaped.txt', 'x')`,
      at('evil.halflight'),
    ]);
    if (made.error)
      throw new Error(`This test makes its file with python3, which is missing: ${made.error.message}`);
    const { code, stderr } = await work('export', at('evil.halflight'), '--out', at('in/here'));
    expect([code, stderr]).toEqual([1, expect.stringMatching(/not safe to open.*leads outside/)]);
    expect(existsSync(at('escaped.txt')) || existsSync(at('in'))).toBe(false);
  });

  test('a file that would swell: it is not unpacked', async () => {
    const data = new Uint8Array(80_000_000);
    writeFileSync(at('bomb.halflight'), rawZip([{ name: 'manifest.json', data, deflate: true }]));
    const { code, stderr } = await work('export', at('bomb.halflight'), '--out', at('swollen'));
    expect([code, stderr]).toEqual([1, expect.stringMatching(/not safe to open.*would swell to 76 MB/)]);
    expect(existsSync(at('swollen'))).toBe(false);
  });

  test('a folder that can only be read', async () => {
    mkdirSync(at('locked'));
    writeFileSync(at('locked/ferry.halflight'), readFileSync(dossier));
    chmodSync(at('locked'), 0o555);
    // Whoever may do anything (root) writes there all the same: then a place stands in where nobody can.
    const place = process.getuid?.() === 0 ? '/proc/ferry.halflight' : at('locked/new.halflight');
    const { code, stderr } = await work('new', place, '--picture', at('ferry-1.png'));
    chmodSync(at('locked'), 0o755);
    expect([code, stderr]).toEqual([1, expect.stringMatching(/could not be written: /)]);
    expect(readdirSync(at('locked'))).toEqual(['ferry.halflight']);
  });

  test('wrong use', async () => {
    expect((await work('new', at('ferry.zip'), '--picture', at('ferry-1.png'))).code).toBe(2);
    expect((await work('frobnicate')).code).toBe(2);
    expect((await work('strip', dossier, '--out', at('a.gif'))).code).toBe(2);
    expect((await work('strip', dossier, '--out', at('a.webp'), '--seconds', '0.2')).stderr).toMatch(
      /three times/,
    );
  });
});

describe('the process strip', () => {
  test('as SVG is complete in itself', async () => {
    expect((await work('strip', dossier, '--out', at('strip.svg'))).code).toBe(0);
    const svg = readFileSync(at('strip.svg'), 'utf8');
    expect(svg.match(/<image /g)?.length).toBe(3);
    expect(svg).not.toMatch(/href="http/);
    const { width } = await sharp(Buffer.from(svg)).metadata();
    expect(width).toBeGreaterThan(600);
  });

  test('as PNG shows every version', async () => {
    expect((await work('strip', dossier, '--out', at('strip.png'))).code).toBe(0);
    const { channels } = await sharp(at('strip.png')).stats();
    expect(channels[0].stdev).toBeGreaterThan(5);
  });

  test('as WebP moves once a second unless told', async () => {
    expect((await work('strip', dossier, '--out', at('strip.webp'))).code).toBe(0);
    const { pages, delay, loop } = await sharp(at('strip.webp'), { animated: true }).metadata();
    expect([pages, delay, loop]).toEqual([3, [1000, 1000, 1000], 0]);
  });
});
