import { OPEN_INTENT, SAME_POSE } from '@halflight/engine';
import { describe, expect, test } from 'vitest';
import { apply, type Command, commandWords } from '../../src/document/commands.ts';
import { begin, step } from '../../src/document/history.ts';
import { asEntry, asSnapshot } from '../../src/document/schema.ts';
import { bytesOf } from '../../src/document/time.ts';
import { answer, version, work } from '../samples.ts';

const { number: _, ...sheet } = version;
const second = { ...sheet, hash: 'b'.repeat(64), name: 'ferry-2.png' };
const square = [0.4, 0.2, 0.6, 0.2, 0.6, 0.4, 0.4, 0.4];

describe('a new version', () => {
  test('comes last with the next number, and areas travel along', () => {
    const answered = apply(work, { kind: 'answer', answers: [answer({ kind: 'wrong', outline: square })] });
    const next = apply(answered, {
      kind: 'addVersion',
      version: second,
      pose: { ...SAME_POSE, x: 0.5, width: 0.5 },
    });
    expect(next.versions.map(({ number, name }) => [number, name])).toEqual([
      [1, 'ferry.png'],
      [2, 'ferry-2.png'],
    ]);
    expect(Math.max(...next.answers[0].outline!.filter((_, i) => i % 2 === 0))).toBeCloseTo(0.2, 9);
  });

  test('answers what was meant to be done', () => {
    const answered = apply(work, {
      kind: 'answer',
      answers: [answer({ kind: 'willDo' }), answer({ kind: 'meantSo', key: 'value.flat' })],
    });
    const next = apply(answered, {
      kind: 'addVersion',
      version: second,
      pose: SAME_POSE,
      outcomes: ['smaller', null],
    });
    expect(next.answers.map(({ outcome }) => outcome)).toEqual([{ version: 2, state: 'smaller' }, undefined]);
  });

  test('a glance that is kept is none any more; undoing brings it back', () => {
    const glance = { ...sheet, id: 'g1' };
    let history = step(begin(work), { kind: 'do', command: { kind: 'glance', glance } });
    const keep: Command = { kind: 'addVersion', version: second, pose: null, glance: 'g1' };
    history = step(history, { kind: 'do', command: keep });
    expect([history.present.glances.length, history.present.versions.length]).toEqual([0, 2]);
    history = step(history, { kind: 'undo' });
    expect([history.present.glances.length, history.present.versions.length]).toEqual([1, 1]);
    expect(bytesOf(history.undone[0])).toContain(second.hash);
  });
});

describe('the intent keeps its history', () => {
  const feel = (words: string, at: string): Command => ({
    kind: 'decide',
    part: 'feel',
    intent: { ...OPEN_INTENT, feel: words },
    at,
  });

  test('one decision at a time: changes that follow each other within minutes are one', () => {
    const changed = [
      feel('still', '2026-03-01T10:00:00Z'),
      feel('very still', '2026-03-01T10:04:00Z'),
      feel('bleak', '2026-03-02T09:00:00Z'),
    ].reduce(apply, work);
    expect(changed.pastIntents.map(({ intent, until }) => [intent.feel, until])).toEqual([
      [undefined, '2026-03-01T10:04:00Z'],
      ['very still', '2026-03-02T09:00:00Z'],
    ]);
  });
});

test('called done, with what still stood; and taken up again', () => {
  const decision = { at: '2026-03-01T10:00:00Z', version: 1, standing: ['Many hues.'] };
  const done = apply(work, { kind: 'callDone', decision });
  expect([done.state, done.decision]).toEqual(['decided', decision]);
  const again = apply(done, { kind: 'reopen' });
  expect([again.state, again.decision]).toEqual(['painting', undefined]);
  expect(apply(work, { kind: 'reopen' })).toBe(work);
});

const look = { at: '2026-03-01T10:00:00Z', version: 1, by: 'own', seconds: 10, mirrored: false } as const;
const decision = { at: '2026-03-01T10:00:00Z', version: 1, standing: [] };
test.each<[Command, string]>([
  [{ kind: 'addVersion', version: second, pose: null }, 'the new version'],
  [
    { kind: 'addVersion', version: second, pose: SAME_POSE, glance: 'g1', outcomes: [null] },
    'keeping the paste',
  ],
  [{ kind: 'glance', glance: { ...sheet, id: 'g1' } }, 'the paste'],
  [{ kind: 'dropGlance', id: 'g1' }, 'dropping a paste'],
  [{ kind: 'addLook', look }, 'a quiet look'],
  [{ kind: 'callDone', decision }, 'calling it done'],
  [{ kind: 'reopen' }, 'taking it up again'],
])('%j passes through the journal and is undone in words', (command, words) => {
  expect(asEntry(JSON.parse(JSON.stringify({ kind: 'do', command })))).toEqual({ kind: 'do', command });
  expect(commandWords(command)).toBe(words);
});

test('a document of the first days opens, with nothing in the lists it did not have', () => {
  const { glances: _g, pastIntents: _p, looks: _l, ...old } = work;
  const opened = asSnapshot({ schema: 'halflight/kept@1', line: 0, base: old, done: [], undone: [] });
  expect(opened?.base).toEqual({ ...old, glances: [], pastIntents: [], looks: [] });
});
