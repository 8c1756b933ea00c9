import { OPEN_INTENT, type Step } from '@halflight/engine';
import fc from 'fast-check';
import type { Command } from '../src/document/commands.ts';
import type { Entry } from '../src/document/history.ts';
import { type Answer, newWork, type Version, WORK_STATES } from '../src/document/work.ts';

export const version: Version = {
  number: 1,
  name: 'ferry.png',
  hash: 'a'.repeat(64),
  bytes: 10,
  mediaType: 'image/png',
  width: 300,
  height: 200,
  depth: 8,
  profile: 'sRGB',
  tagged: true,
  added: '2026-03-01T10:00:00.000Z',
};

export const work = newWork('w1', 'Ferry', version);

export function answer(change: Partial<Answer> = {}): Answer {
  return {
    key: 'hueSpread.many',
    kind: 'meantSo',
    severity: 0.5,
    reading: 'hueSpread',
    sentence: 'Many hues.',
    version: 1,
    at: '2026-03-01T10:00:00.000Z',
    ...change,
  };
}

export function step(change: Partial<Step> = {}): Step {
  return { kind: 'exposure', on: true, strength: 1, values: { stops: 0.3 }, ...change };
}

const key = fc.constantFrom('hueSpread.many', 'headroom.darks', 'value.flat');

/** Any command, for properties. */
export const anyCommand: fc.Arbitrary<Command> = fc.oneof(
  fc
    .record({ key, kind: fc.constantFrom('willDo' as const, 'meantSo' as const, 'wrong' as const) })
    .map((change): Command => ({ kind: 'answer', answers: [answer(change)] })),
  key.map((name): Command => ({ kind: 'takeBack', key: name })),
  fc.string().map((feel): Command => ({ kind: 'decide', part: 'feel', intent: { ...OPEN_INTENT, feel } })),
  fc.constant<Command>({ kind: 'decide', part: 'feel', intent: OPEN_INTENT }),
  fc.string().map((title): Command => ({ kind: 'rename', title })),
  fc.constantFrom(...WORK_STATES).map((state): Command => ({ kind: 'setState', state })),
  fc
    .nat(3)
    .map((stops): Command => ({ kind: 'addStep', title: 'Exposure', step: step({ values: { stops } }) })),
  fc.nat(3).map((at): Command => ({ kind: 'changeStep', title: 'Exposure', at, step: step() })),
  fc
    .tuple(fc.nat(3), fc.boolean())
    .map(([at, on]): Command => ({ kind: 'switchStep', title: 'Exposure', at, on })),
  fc
    .tuple(fc.nat(3), fc.nat(3))
    .map(([at, to]): Command => ({ kind: 'moveStep', title: 'Exposure', at, to })),
  fc.nat(3).map((at): Command => ({ kind: 'removeStep', title: 'Exposure', at })),
);

/** Any entry of a journal, for properties. */
export const anyEntry: fc.Arbitrary<Entry> = fc.oneof(
  { weight: 4, arbitrary: anyCommand.map((command): Entry => ({ kind: 'do', command })) },
  { weight: 2, arbitrary: fc.constant<Entry>({ kind: 'undo' }) },
  { weight: 1, arbitrary: fc.constant<Entry>({ kind: 'redo' }) },
);
