import { expect, test } from 'vitest';
import { withFacts } from '../../src/document/facts.ts';
import { begin, step } from '../../src/document/history.ts';
import { version, work } from '../samples.ts';

const hash = 'b'.repeat(64);
const readings = 'c'.repeat(64);
const grown = step(begin(work), {
  kind: 'do',
  command: { kind: 'addVersion', version: { ...version, hash }, pose: null },
});

test('what becomes known of a version stays when other things are undone, and is no act itself', () => {
  const learned = withFacts(grown, hash, { readings });
  expect(learned.present.versions[1].readings).toBe(readings);
  expect(learned.done).toHaveLength(1);
  const again = step(step(learned, { kind: 'undo' }), { kind: 'redo' });
  expect(again.present.versions[1].readings).toBe(readings);
  expect(again.present.versions[0].readings).toBeUndefined();
});

test('what is known already stays, and nothing new gives the same history', () => {
  const learned = withFacts(grown, hash, { readings });
  expect(withFacts(learned, hash, { readings: 'd'.repeat(64) })).toBe(learned);
  expect(withFacts(grown, 'e'.repeat(64), { readings })).toBe(grown);
});
