import { existsSync } from 'node:fs';
import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import sharp from 'sharp';
import { beforeAll, describe, expect, test } from 'vitest';
import { panels, WARM } from '../../../engine/test/readings/light/surfaces.ts';
import { halflight, newFolder, paintDusk } from '../commandLine.ts';

const folder = newFolder();
const at = (name: string): string => join(folder, name);

/** Twelve panels in warm light, the shade of one of them only darkened. */
async function paintPanels(path: string): Promise<void> {
  const { view } = panels(WARM, { 5: 'neutral' });
  const code = (l: number): number => 255 * (l <= 0.0031308 ? 12.92 * l : 1.055 * l ** (1 / 2.4) - 0.055);
  const data = Uint8Array.from(view.rgb, (l) => Math.round(code(Math.min(1, l))));
  await sharp(data, { raw: { width: view.width, height: view.height, channels: 3 } })
    .withIccProfile('p3', { attach: true })
    .toFile(path);
}

beforeAll(async () => {
  await paintPanels(at('panels.png'));
  await paintDusk(at('dusk.png'));
});

describe('guide', () => {
  test('writes a layer of the picture’s size and profile with the colours that check names', async () => {
    const before = await readFile(at('panels.png'));
    const ran = await halflight(['guide', at('panels.png'), '--out', at('layer.png')]);
    expect([ran.code, ran.stdout]).toEqual([0, `${at('layer.png')}\n`]);
    expect(await readFile(at('panels.png'))).toEqual(before);

    const [picture, layer] = await Promise.all(
      ['panels.png', 'layer.png'].map((name) => sharp(at(name)).metadata()),
    );
    expect([layer.width, layer.height, layer.channels]).toEqual([picture.width, picture.height, 4]);
    expect(layer.icc).toEqual(picture.icc);

    const checked = JSON.parse((await halflight(['check', at('panels.png'), '--json'])).stdout);
    const place = checked.findings.find((f: { key: string }) => f.key === 'light.neutral').places[0];
    const colours = await flatColours(at('layer.png'));
    expect(place.swatches.map((s: { label: string }) => s.label)).toEqual(['lit', 'now', 'in this light']);
    for (const { hex } of place.swatches) expect(colours.get(hex)).toBeGreaterThanOrEqual(48 * 48);
    const text = (await halflight(['check', at('panels.png')])).stdout;
    for (const { label, hex } of place.swatches) expect(text).toContain(`${label} ${hex}`);
    expect(ran.stderr).toContain(place.swatches[2].hex);
  });

  test('is empty where nothing is known, and says why', async () => {
    const ran = await halflight(['guide', at('dusk.png'), '--out', at('empty.png')]);
    expect(ran.code).toBe(0);
    expect(ran.stderr).toMatch(/tell me/);
    const alpha = await sharp(at('empty.png')).extractChannel(3).raw().toBuffer();
    expect(alpha.every((v) => v === 0)).toBe(true);
  });

  test.each([
    ['onto itself', 'dusk.png', 'dusk.png', 2, /is the picture itself/],
    ['an ending that is no layer', 'dusk.png', 'layer.jpg', 2, /ends in \.png/],
    ['no picture', 'missing.png', 'never.png', 1, /missing\.png/],
    ['words', 'words.png', 'never.png', 1, /not a picture/],
  ])('%s is refused in a sentence, and nothing is written', async (_, picture, out, code, words) => {
    await writeFile(at('words.png'), 'these are words');
    const before = await readFile(at('dusk.png'));
    const ran = await halflight(['guide', at(picture), '--out', at(out)]);
    expect(ran.code).toBe(code);
    expect(ran.stderr).toMatch(words);
    expect(ran.stderr).not.toMatch(/\n\s+at /);
    expect(await readFile(at('dusk.png'))).toEqual(before);
    if (out !== 'dusk.png') expect(existsSync(at(out))).toBe(false);
  });
});

/** Opaque colours of a layer as hex with the number of their pixels. */
async function flatColours(path: string): Promise<Map<string, number>> {
  const { data, info } = await sharp(path, { ignoreIcc: true }).raw().toBuffer({ resolveWithObject: true });
  expect(info.channels).toBe(4);
  const counts = new Map<string, number>();
  for (let i = 0; i < data.length; i += 4) {
    if (data[i + 3] === 0) continue;
    if (data[i + 3] !== 255) throw new Error('a place of the layer is half transparent');
    const hex = `#${data.subarray(i, i + 3).toString('hex')}`;
    counts.set(hex, (counts.get(hex) ?? 0) + 1);
  }
  return counts;
}
