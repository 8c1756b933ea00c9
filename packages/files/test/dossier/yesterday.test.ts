import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { bytesSource, openDossier } from '../../src/dossier/index.ts';
import { thingsOf } from '../../src/dossier/work.ts';
import { packed } from './samples.ts';

const FOLDER = new URL('./fixtures/', import.meta.url);
const FILES = readdirSync(FOLDER);

/** One dossier of every version of the format that was ever written; they are never written again. */
test('every version is here', () => {
  expect(FILES).toEqual(['version-1.halflight']);
});

test.each(FILES)('%s opens, is whole, and passes through a new writing unchanged', async (file) => {
  const older = await openDossier(bytesSource(readFileSync(new URL(file, FOLDER)), file));
  expect(await older.verify()).toEqual([]);
  const written = await packed({
    older,
    work: older.work,
    things: [],
    writer: 'Halflight',
    written: '2027-01-01T00:00:00Z',
  });
  const again = await openDossier(bytesSource(written, file));
  expect(again.work).toEqual(older.work);
  for (const hash of thingsOf(older.work)) expect(await again.bytes(hash)).toEqual(await older.bytes(hash));
});

test('version 1: all parts of a work are read', async () => {
  const { work, bytes } = await openDossier(
    bytesSource(readFileSync(new URL('version-1.halflight', FOLDER)), 'version-1.halflight'),
  );
  expect(work.versions.map(({ number, minutes, change }) => [number, minutes, change?.impact])).toEqual([
    [1, undefined, undefined],
    [2, 45, 7.25],
  ]);
  expect(work.answers.map(({ kind, outcome, reason }) => [kind, outcome?.state ?? reason])).toEqual([
    ['willDo', 'smaller'],
    ['meantSo', 'The lamps are the story.'],
  ]);
  expect([work.state, work.glances.length, work.pastIntents.length, work.looks[0].by]).toEqual([
    'decided',
    1,
    1,
    'guest',
  ]);
  expect([work.recipe?.steps[0].kind, work.decision?.standing]).toEqual([
    'warmth',
    ['The darks are lifted.'],
  ]);
  const readings = JSON.parse(new TextDecoder().decode(await bytes(work.glances[0].readings!)));
  expect(readings.schema).toBe('halflight/check@1');
});
