import fc from 'fast-check';
import { expect, test } from 'vitest';
import { apply } from '../../src/document/commands.ts';
import { begin, type Entry, type History, rebuild, step } from '../../src/document/history.ts';
import { anyCommand, anyEntry, work } from '../samples.ts';

const run = (entries: readonly Entry[]): History => entries.reduce(step, begin(work));

test('undoing everything gives the first document, redoing everything the last', () => {
  fc.assert(
    fc.property(fc.array(anyCommand), (commands) => {
      const done = run(commands.map((command) => ({ kind: 'do', command })));
      let history = done;
      while (history.done.length > 0) history = step(history, { kind: 'undo' });
      expect(history.present).toEqual(work);
      while (history.undone.length > 0) history = step(history, { kind: 'redo' });
      expect(history.present).toEqual(done.present);
    }),
  );
});

test('the present is always the base with what was done', () => {
  fc.assert(
    fc.property(fc.array(anyEntry), (entries) => {
      const { base, done, undone, present } = run(entries);
      expect(present).toEqual(done.reduce(apply, base));
      expect(rebuild(base, done, undone).present).toEqual(present);
    }),
  );
});

test('doing something new forgets what was undone', () => {
  const rename = (title: string): Entry => ({ kind: 'do', command: { kind: 'rename', title } });
  const history = run([rename('a'), rename('b'), { kind: 'undo' }, rename('c')]);
  expect(history.present.title).toBe('c');
  expect(history.undone).toEqual([]);
  expect(step(history, { kind: 'redo' })).toBe(history);
});

test('what changes nothing is no step', () => {
  const history = begin(work);
  expect(step(history, { kind: 'do', command: { kind: 'rename', title: work.title } })).toBe(history);
  expect(step(history, { kind: 'do', command: { kind: 'takeBack', key: 'none' } })).toBe(history);
  expect(step(history, { kind: 'undo' })).toBe(history);
});
