import { join } from 'node:path';
import sharp from 'sharp';
import { beforeAll, describe, expect, test } from 'vitest';
import { halflight, newFolder, paintDusk } from '../commandLine.ts';

const folder = newFolder();
const at = (name: string): string => join(folder, name);

beforeAll(async () => {
  await paintDusk(at('first.png'), 480, 320);
  await sharp(at('first.png')).linear(0.85, 25).toFile(at('veiled.png'));
  await sharp(at('veiled.png')).flop().toFile(at('mirrored.png'));
  await sharp({ create: { width: 300, height: 300, channels: 3, background: '#888' } })
    .png()
    .toFile(at('other.png'));
});

describe('compare', () => {
  test('the same picture: nothing changed', async () => {
    const { code, stdout } = await halflight(['compare', at('first.png'), at('first.png')]);
    expect([code, stdout]).toEqual([0, 'Nothing changed.\n']);
  });

  test('a veil is seen from a distance; --json says by how much and how the later one lies', async () => {
    const plain = JSON.parse(
      (await halflight(['compare', at('first.png'), at('veiled.png'), '--json'])).stdout,
    );
    const mirrored = JSON.parse(
      (await halflight(['compare', at('first.png'), at('mirrored.png'), '--json'])).stdout,
    );
    expect(plain.schema).toBe('halflight/compare@1');
    expect(plain.impact).toBeGreaterThan(2);
    expect(mirrored.pose.mirrored).toBe(true);
    expect(Math.abs(mirrored.impact - plain.impact)).toBeLessThan(0.3);
  });

  test('two different pictures are told apart with exit code 1', async () => {
    const { code, stderr } = await halflight(['compare', at('first.png'), at('other.png')]);
    expect(code).toBe(1);
    expect(stderr).toMatch(/Choose two versions of one picture/);
  });

  test('a missing file is named', async () => {
    const { code, stderr } = await halflight(['compare', at('first.png'), at('gone.png')]);
    expect(code).toBe(1);
    expect(stderr).toMatch(/gone\.png/);
  });
});
