import { OPEN_INTENT } from '@halflight/engine';
import { describe, expect, test } from 'vitest';
import { apply, type Command, commandWords } from '../../src/document/commands.ts';
import { titleFromName } from '../../src/document/work.ts';
import { answer, work } from '../samples.ts';

const here = [0, 0, 1, 0, 1, 1];
const there = [0.5, 0.5, 1, 0.5, 1, 1];
const answered = (...answers: ReturnType<typeof answer>[]) => apply(work, { kind: 'answer', answers });

describe('answers', () => {
  test('a new one to the same finding replaces the old one', () => {
    const once = answered(answer({ kind: 'willDo' }));
    const twice = apply(once, { kind: 'answer', answers: [answer({ kind: 'meantSo' })] });
    expect(twice.answers.map(({ kind }) => kind)).toEqual(['meantSo']);
  });

  test('those about different places stand side by side', () => {
    const both = answered(
      answer({ kind: 'wrong', outline: here }),
      answer({ kind: 'wrong', outline: there }),
    );
    expect(both.answers).toHaveLength(2);
    const again = apply(both, { kind: 'answer', answers: [answer({ kind: 'meantSo', outline: here })] });
    expect(again.answers.map(({ kind }) => kind)).toEqual(['wrong', 'meantSo']);
  });

  test('one about the whole replaces those about places', () => {
    const places = answered(answer({ outline: here }), answer({ outline: there }));
    expect(apply(places, { kind: 'answer', answers: [answer()] }).answers).toHaveLength(1);
  });

  test('all to a finding are taken back at once, others stay', () => {
    const many = answered(answer({ outline: here }), answer({ outline: there }), answer({ key: 'other' }));
    const left = apply(many, { kind: 'takeBack', key: 'hueSpread.many' });
    expect(left.answers.map(({ key }) => key)).toEqual(['other']);
  });
});

describe('deciding', () => {
  const feel: Command = {
    kind: 'decide',
    part: 'feel',
    intent: { ...OPEN_INTENT, feel: 'late', layerLimit: 3 },
  };

  test('takes only its part from the intent', () => {
    expect(apply(work, feel).intent).toEqual({ ...OPEN_INTENT, feel: 'late' });
  });

  test('can leave a part open again', () => {
    const open = apply(apply(work, feel), { kind: 'decide', part: 'feel', intent: OPEN_INTENT });
    expect(open.intent).toEqual(OPEN_INTENT);
  });
});

test.each<[Command, string]>([
  [{ kind: 'answer', answers: [answer({ kind: 'willDo' })] }, 'answering “will do”'],
  [{ kind: 'decide', part: 'hue', intent: OPEN_INTENT }, 'changing the hue plan'],
  [{ kind: 'setState', state: 'resting' }, 'calling it resting'],
])('%o is called “%s”', (command, words) => {
  expect(commandWords(command)).toBe(words);
});

test.each([
  ['ferry-landing_04.final.png', 'Ferry landing 04 final'],
  ['.png', 'Untitled'],
  ['dusk', 'Dusk'],
  ['Été.TIFF', 'Été'],
])('%s becomes the title %s', (name, title) => {
  expect(titleFromName(name)).toBe(title);
});
