import {
  listOf,
  MOOD_AXES,
  MOOD_AXIS_NAMES,
  MOOD_WORDS,
  type MoodAxis,
  type MoodIntent,
} from '@halflight/engine';
import { useState } from 'react';
import { NoteFrame } from '../../parts/NoteFrame.tsx';
import type { Seen } from '../../picture/desk.ts';
import { decide } from '../../state/decide.ts';
import { AxisLine } from './AxisLine.tsx';
import { shownAxes, withTarget, withWord } from './axis.ts';

/** The mood: words, and short lines with a meaning on which a place can be chosen. */
export function MoodPart({ mood, seen }: { mood: MoodIntent | undefined; seen: Seen | null }) {
  const [asked, setAsked] = useState<readonly MoodAxis[]>([]);
  const [pointed, setPointed] = useState<string | null>(null);
  const axes = shownAxes(mood, asked);
  const hidden = MOOD_AXIS_NAMES.filter((axis) => !axes.includes(axis));
  const sentence = MOOD_WORDS.find(({ word }) => word === (pointed ?? mood?.words?.at(-1)))?.sentence;
  const measured = measuredBy(seen);

  return (
    <NoteFrame name="intent mood" sentence={sentenceOf(mood)}>
      {/* biome-ignore lint/a11y/useSemanticElements: a set of toggles in running text, no form */}
      <p
        className="words"
        role="group"
        aria-label="Words for the mood"
        onPointerLeave={() => setPointed(null)}
      >
        {MOOD_WORDS.map(({ word }) => (
          <button
            key={word}
            type="button"
            className="word"
            aria-pressed={mood?.words?.includes(word) ?? false}
            onPointerEnter={() => setPointed(word)}
            onFocus={() => setPointed(word)}
            onBlur={() => setPointed(null)}
            onClick={() => decide('mood', withWord(mood, word))}
          >
            {word}
          </button>
        ))}
      </p>
      <p className="caption quiet word-sentence">
        {sentence ?? 'Choose one or several; they are blended. What a word means here can be moved below.'}
      </p>
      <div className="axes">
        {axes.map((axis) => (
          <AxisLine
            key={axis}
            axis={axis}
            target={mood?.axes[axis]}
            measured={measured[axis] ?? null}
            onTarget={(target) => decide('mood', withTarget(mood, axis, target))}
          />
        ))}
      </div>
      {hidden.length > 0 && (
        <p className="quiet">
          Also say something about{' '}
          {hidden.map((axis, index) => (
            <span key={axis}>
              {index > 0 && (index === hidden.length - 1 ? ' or ' : ', ')}
              <button type="button" className="clause" onClick={() => setAsked([...asked, axis])}>
                {MOOD_AXES[axis].title}
              </button>
            </span>
          ))}
          .
        </p>
      )}
      {mood && (
        <p>
          <button type="button" className="clause" onClick={() => decide('mood', undefined)}>
            Leave the mood open
          </button>
        </p>
      )}
    </NoteFrame>
  );
}

function sentenceOf(mood: MoodIntent | undefined): string {
  if (!mood) return 'The mood is left open.';
  if (mood.words?.length) return `The mood is ${listOf(mood.words)}.`;
  const named = MOOD_AXIS_NAMES.filter((axis) => mood.axes[axis]).map((axis) => MOOD_AXES[axis].title);
  return `The mood is decided in ${listOf(named)}.`;
}

/** Where the picture lies on each axis, as the mood reading says. */
function measuredBy(seen: Seen | null): Partial<Record<MoodAxis, number | null>> {
  const value = seen?.readings.find(({ id }) => id === 'mood')?.value;
  return (value ?? {}) as Partial<Record<MoodAxis, number | null>>;
}
