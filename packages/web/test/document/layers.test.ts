import { expect, test } from 'vitest';
import {
  type Choice,
  chosenOf,
  goneOf,
  layerHistory,
  NO_CHOICES,
  readKept,
} from '../../src/document/layers.ts';

const set = ['warm lamp', 'cool lamp'];
const warm: Choice = { kind: 'choose', chosen: { set, kept: 'warm lamp', others: 'drop' } };
const cool: Choice = { kind: 'choose', chosen: { set, kept: 'cool lamp', others: 'hide' } };
const fog = (opacity: number): Choice => ({ kind: 'settle', settled: { path: 'fog', turn: 20, opacity } });

const after = (...choices: Choice[]) =>
  choices.reduce(
    (history, command) => layerHistory.step(history, { kind: 'do', command }),
    layerHistory.begin(NO_CHOICES),
  );

test.each<[string, Choice[], string[]]>([
  ['nothing', [], []],
  ['what is taken away', [{ kind: 'drop', paths: ['a', 'b'] }], ['a', 'b']],
  [
    'what is brought back',
    [
      { kind: 'drop', paths: ['a', 'b'] },
      { kind: 'keep', path: 'a' },
    ],
    ['b'],
  ],
  ['the options that were not chosen', [warm], ['cool lamp']],
  ['no option that is only hidden', [cool], []],
  ['the last choice counts', [cool, warm], ['cool lamp']],
  ['nothing, once a choice is open again', [warm, { kind: 'reopen', set }], []],
])('gone is %s', (_, choices, gone) => {
  expect([...goneOf(after(...choices).present)]).toEqual(gone);
});

test('a choice is found by its layers, in any order', () => {
  const { present } = after(warm);
  expect(chosenOf(present, [...set].reverse())?.kept).toBe('warm lamp');
  expect(chosenOf(present, ['warm lamp'])).toBeUndefined();
});

test('a layer is settled once, as it was last', () => {
  expect(after(fog(0.5), fog(0.75)).present.settled).toEqual([{ path: 'fog', turn: 20, opacity: 0.75 }]);
});

test('what changes nothing is no step to undo', () => {
  const dropped = after({ kind: 'drop', paths: ['a'] });
  expect(layerHistory.step(dropped, { kind: 'do', command: { kind: 'drop', paths: ['a'] } })).toBe(dropped);
  expect(layerHistory.step(dropped, { kind: 'do', command: { kind: 'keep', path: 'b' } })).toBe(dropped);
});

test('what is kept comes back with its undo', () => {
  const { done } = after(warm, fog(0.5));
  const back = readKept(JSON.stringify({ done: [done[0]], undone: [done[1]] }));
  expect(back?.present.chosen).toHaveLength(1);
  expect(back && layerHistory.step(back, { kind: 'redo' }).present.settled).toHaveLength(1);
});

test.each([null, '', '{', '{"done":[{"kind":"burn"}],"undone":[]}', '{"done":1}'])(
  '“%s” is nothing kept',
  (text) => {
    expect(readKept(text)).toBeNull();
  },
);
