import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { OPEN_INTENT } from '@halflight/engine';
import { openCodec } from '@halflight/files/node';
import { expect, test } from 'vitest';
import { readEntry } from '../../src/class/read.ts';
import { newFolder, paintDusk } from '../commandLine.ts';

test('a work that is read again with another intent gets its dossier anew', async () => {
  const folder = newFolder();
  const path = join(folder, 'Ana Brook - Dusk.png');
  mkdirSync(join(folder, 'journal'));
  await paintDusk(path, 96, 64);
  const codec = await openCodec();
  const read = (feel: string) => {
    const wish = { intent: { ...OPEN_INTENT, feel }, baseline: null, limitMegapixels: 100, maps: null };
    return readEntry({ path, folder: join(folder, 'journal'), dossier: true, wish }, codec);
  };
  expect(await read('dusk')).toMatchObject({ dossier: true });
  const again = await read('night');
  codec.close();
  expect(again).toMatchObject({ dossier: true });
  expect(again.trouble).toBeUndefined();
});
