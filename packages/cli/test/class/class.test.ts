import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { halflight, newFolder, paintDusk, type Ran } from '../commandLine.ts';

const folder = newFolder();
const at = (...names: string[]): string => join(folder, ...names);

const NAMES = ['Ana Brook - Dusk.png', 'Bo Tern.png', 'Cai Reed.png', 'Dee Marsh.png'];
let whole: Ran;
let checked: Ran;

beforeAll(async () => {
  mkdirSync(at('works'));
  for (const [k, name] of NAMES.entries()) await paintDusk(at('works', name), 120 + 16 * k, 80);
  writeFileSync(at('works', 'Eli Sand.jpg'), readFileSync(at('works', NAMES[0])).subarray(0, 400));
  const heic = Buffer.alloc(64);
  heic.write('\0\0\0\x18ftypheic\0\0\0\0heicmif1', 'latin1');
  writeFileSync(at('works', 'Fay Gull.heic'), heic);
  writeFileSync(at('works', 'marks.txt'), 'no picture');
  [whole, checked] = await Promise.all([
    halflight(['class', at('works'), '--out', at('whole'), '--dossiers', '--names', 'shown', '--json']),
    halflight([
      'check',
      '--json',
      ...['Eli Sand.jpg', 'Fay Gull.heic', ...NAMES].sort().map((n) => at('works', n)),
    ]),
  ]);
});

describe('a class', () => {
  test('has the lines of check, sorted by name; broken files are named and not fatal', () => {
    expect(whole.code).toBe(1);
    expect(readFileSync(at('whole', 'readings.jsonl'), 'utf8')).toBe(checked.stdout);
    expect(whole.stderr).toContain('“Eli Sand.jpg” is damaged');
    expect(whole.stderr).toMatch(/Fay Gull\.heic.*JPEG/);
  });

  test('is told as a whole, without a mark for anybody', () => {
    const told = JSON.parse(whole.stdout);
    expect(told.schema).toBe('halflight/class@1');
    expect(told.works.map(({ name }: { name: string }) => name)).toEqual(NAMES);
    expect(told.unread).toHaveLength(2);
    expect(told.statistics['value.key']).toMatchObject({ count: 4, apart: [] });
    expect(told).toEqual(JSON.parse(readFileSync(at('whole', 'class.json'), 'utf8')));
    expect(JSON.stringify(told)).not.toMatch(/rank|score|grade/i);
  });

  test('has a page for each work and one for all, complete in themselves, with the caution', () => {
    expect(readdirSync(at('whole', 'pages'))).toHaveLength(4);
    for (const file of ['overview.html', 'pages/1 Ana Brook.html']) {
      const html = readFileSync(at('whole', file), 'utf8');
      expect(html).toContain("default-src 'none'");
      expect(html).toMatch(/only if they agree/);
      expect(html).not.toMatch(/(?:src|href)="https?:/);
    }
    expect(readdirSync(at('whole', 'dossiers'))).toContain('1 Ana Brook.halflight');
  });

  test('is taken up again: nothing that is finished is read twice, what changed is, and hidden names leave the disk', async () => {
    cpSync(at('whole'), at('again'), { recursive: true, preserveTimestamps: true });
    cpSync(at('works'), at('works-2'), { recursive: true, preserveTimestamps: true });
    await paintDusk(at('works-2', 'Bo Tern.png'), 96, 72);
    const ran = await halflight([
      'class',
      at('works-2'),
      '--out',
      at('again'),
      '--dossiers',
      '--names',
      'hidden',
      '--title',
      'Works',
    ]);
    expect(ran.code).toBe(1);
    expect(ran.stderr).toMatch(/^3 of 6 works are read already/);
    const lines = readFileSync(at('again', 'readings.jsonl'), 'utf8').trimEnd().split('\n');
    const before = readFileSync(at('whole', 'readings.jsonl'), 'utf8').trimEnd().split('\n');
    expect(lines.map((line, k) => line === before[k])).toEqual([true, false, true, true, true, true]);
    expect(existsSync(at('again', 'pages', '1 Ana Brook.html'))).toBe(false);
    expect(readdirSync(at('again', 'pages'))).toEqual([
      '1 work.html',
      '2 work.html',
      '3 work.html',
      '4 work.html',
    ]);
    for (const file of ['overview.html', 'pages/1 work.html'])
      expect(readFileSync(at('again', file), 'utf8')).not.toMatch(/Brook|Tern|Sand/);
  });
});
