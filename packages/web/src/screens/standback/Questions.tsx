import { listOf, sentence } from '@halflight/engine';
import { useState } from 'react';
import { go } from '../../app/route.ts';
import type { Look, Work } from '../../document/work.ts';
import { perform } from '../../state/edit.ts';
import { answerLook, dropLook, keepLook, nothingPulled, useLook } from '../../state/look.ts';
import { MOODS } from './looks.ts';

/** What is asked after a look, one after the other. */
export type Question = 'first' | 'mood' | 'pulledOut' | 'verdict';

export const FIRST = 'Where did the eye go first?';
export const PLACE = 'Where is it?';

/** One question at a time; each can be left out. */
export function Questions({
  work,
  question,
  onNext,
}: {
  work: Work;
  question: Question;
  onNext: () => void;
}) {
  return (
    <div className="questions">
      {question === 'first' && (
        <Asked words={FIRST} hint="Tap the place on the picture.">
          <Skip onNext={onNext} words="I can’t say" />
        </Asked>
      )}
      {question === 'mood' && <MoodAsked work={work} onNext={onNext} />}
      {question === 'pulledOut' && <PulledOut onNext={onNext} />}
      {question === 'verdict' && <Verdict work={work} />}
      <p className="quiet caption">
        <button type="button" className="clause" onClick={dropLook}>
          Forget this look
        </button>
        ; nothing is written down then.
      </p>
    </div>
  );
}

function Asked({ words, hint, children }: { words: string; hint?: string; children: React.ReactNode }) {
  return (
    <>
      <p className="lead" role="status">
        {words}
      </p>
      {hint && <p className="quiet">{hint}</p>}
      {children}
    </>
  );
}

function Skip({ onNext, words }: { onNext: () => void; words: string }) {
  return (
    <p>
      <button type="button" className="answer" onClick={onNext}>
        {words}
      </button>
    </p>
  );
}

function MoodAsked({ work, onNext }: { work: Work; onNext: () => void }) {
  const words = work.intent.mood?.words ?? [];
  const asked = words.length > 0 ? `${sentence(listOf(words))}: is it there?` : 'Is the mood there?';
  return (
    <Asked words={asked}>
      <div className="answers">
        {MOODS.map(({ mood, word }) => (
          <button
            key={word}
            type="button"
            className="answer"
            onClick={() => {
              answerLook({ mood });
              onNext();
            }}
          >
            {word}
          </button>
        ))}
      </div>
      <Skip onNext={onNext} words="I can’t say" />
    </Asked>
  );
}

const PULLS = ['an edge', 'a colour', 'a light', 'too much detail', 'something drawn wrong'] as const;

function PulledOut({ onNext }: { onNext: () => void }) {
  const [word, setWord] = useState('');
  const place = useLook((state) => state.answers.pulledOut?.place);
  const give = (said: string): void => {
    const text = said.trim();
    if (place || text) answerLook({ pulledOut: { ...(place && { place }), ...(text && { word: text }) } });
    onNext();
  };
  return (
    <Asked
      words="What pulled you out?"
      hint={
        place ? 'The place is marked; tap again to move it.' : 'Tap the place, and say in a word what it is.'
      }
    >
      <div className="answers">
        {PULLS.map((it) => (
          <button key={it} type="button" className="answer" onClick={() => give(it)}>
            {it}
          </button>
        ))}
      </div>
      <form
        className="asking"
        onSubmit={(event) => {
          event.preventDefault();
          give(word);
        }}
      >
        <label>
          Or in your own word
          <input value={word} maxLength={60} onChange={(event) => setWord(event.target.value)} />
        </label>
        <div className="answers">
          <button type="submit" className="answer">
            go on
          </button>
          <button
            type="button"
            className="answer"
            onClick={() => {
              nothingPulled();
              onNext();
            }}
          >
            nothing did
          </button>
        </div>
      </form>
    </Asked>
  );
}

const VERDICTS: readonly { verdict: NonNullable<Look['verdict']>; words: string }[] = [
  { verdict: 'done', words: 'it is done' },
  { verdict: 'oneMore', words: 'one more thing' },
  { verdict: 'rest', words: 'let it rest' },
];

function Verdict({ work }: { work: Work }) {
  const end = (verdict: Look['verdict']): void => {
    if (verdict) answerLook({ verdict });
    keepLook();
    if (verdict === 'rest') perform({ kind: 'setState', state: 'resting' });
    if (verdict === 'done') go({ screen: 'progress', work: work.id });
  };
  return (
    <Asked words="And now?" hint="“It is done” leads to what still stands; nothing is decided by this alone.">
      <div className="answers">
        {VERDICTS.map(({ verdict, words }) => (
          <button key={verdict} type="button" className="answer" onClick={() => end(verdict)}>
            {words}
          </button>
        ))}
        <button type="button" className="answer" onClick={() => end(undefined)}>
          I leave it open
        </button>
      </div>
    </Asked>
  );
}
