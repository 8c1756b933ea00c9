import { readdirSync } from 'node:fs';
import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { checkRecipe } from '@halflight/engine';
import { beforeAll, describe, expect, test } from 'vitest';
import { halflight, newFolder, paintDusk } from '../commandLine.ts';

const folder = newFolder();
const at = (name: string): string => join(folder, name);
const INTENT = {
  schema: 'halflight/intent@1',
  mood: { axes: { warmCool: { at: -1, tolerance: 0.25 } } },
  hue: { families: [{ hue: 270, width: 70 }] },
};
/** Keys and severities of what `check` finds. */
async function found(picture: string): Promise<Record<string, number>> {
  const { stdout } = await halflight(['check', picture, '--intent', at('dusk.json'), '--json']);
  const findings: { key: string; severity: number }[] = JSON.parse(stdout).findings;
  return Object.fromEntries(findings.map((f) => [f.key, f.severity]));
}

beforeAll(async () => {
  await paintDusk(at('dusk.png'), 300, 200);
  await writeFile(at('dusk.json'), JSON.stringify(INTENT));
});

describe('propose', () => {
  test('what it proposes, applied, meets what check found', async () => {
    const args = [
      'propose',
      at('dusk.png'),
      '--intent',
      at('dusk.json'),
      '--out',
      at('calmer.json'),
      '--json',
    ];
    const { code, stdout, stderr } = await halflight(args);
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    const said = JSON.parse(stdout);
    expect(said.schema).toBe('halflight/proposal@1');
    const written = JSON.parse(await readFile(at('calmer.json'), 'utf8'));
    expect(written).toEqual(said.recipe);
    expect(checkRecipe(written).ok).toBe(true);
    expect(said.steps.length).toBe(written.steps.length);
    for (const { reason, serves } of said.steps) {
      expect(reason).toMatch(/\.$/);
      expect(serves.length).toBeGreaterThan(0);
    }

    const applied = await halflight([
      'apply',
      at('dusk.png'),
      '--recipe',
      at('calmer.json'),
      '--out',
      at('calmer.png'),
    ]);
    expect(applied.code).toBe(0);
    const [before, after] = [await found(at('dusk.png')), await found(at('calmer.png'))];
    expect(Object.keys(before)).toContain('hueSpread.strays');
    for (const { key, outcome } of said.findings)
      if (outcome === 'met') expect(after).not.toHaveProperty([key]);
    expect(said.findings.find((f: { key: string }) => f.key === 'hueSpread.strays').outcome).toBe('met');
    for (const [key, severity] of Object.entries(after))
      expect(severity).toBeLessThanOrEqual((before[key] ?? 0) + 0.01);
  });

  test('as text it says what the edit comes to and how to make it, without colour in a pipe', async () => {
    const { stdout } = await halflight(['propose', at('dusk.png'), '--intent', at('dusk.json')]);
    expect(stdout).toMatch(/^dusk\.png\n300 × 200, 8 bit/);
    expect(stdout).toMatch(/\n1\. /);
    expect(stdout).toContain('Add --out RECIPE.json');
    expect(stdout).not.toContain('\u001b');
    for (const line of stdout.split('\n')) expect(line.length).toBeLessThanOrEqual(72);
  });

  test.each([
    ['no picture', ['propose'], 2, /picture/],
    ['a missing picture', ['propose', at('gone.png')], 1, /gone\.png/],
    [
      'the picture as the recipe',
      ['propose', at('dusk.png'), '--out', at('dusk.png')],
      2,
      /is the picture itself/,
    ],
    ['another file as the recipe', ['propose', at('dusk.png'), '--out', at('dusk.json')], 2, /is no recipe/],
    ['a folder as the recipe', ['propose', at('dusk.png'), '--out', folder], 2, /is a folder/],
    ['an intent that is none', ['propose', at('dusk.png'), '--intent', at('dusk.png')], 2, /no JSON/],
  ])('%s is refused in a sentence, and nothing is written', async (_, args, code, words) => {
    const before = readdirSync(folder);
    const ran = await halflight(args);
    expect(ran.code).toBe(code);
    expect(ran.stderr).toMatch(words);
    expect(ran.stderr).not.toMatch(/\n\s+at /);
    expect(readdirSync(folder)).toEqual(before);
  });
});
