import { countWord, sentence } from '@halflight/engine';
import { when } from '../../parts/when.ts';
import type { LookFacts } from '../../picture/time-desk.ts';
import { type CarriedLook, lookSentences, moodWord } from './looks.ts';

/** What is laid over the picture. */
export type Overlay = 'heat' | 'predicted' | 'focus';

/** What the looks said so far, together and one by one. */
export function Told({
  looks,
  facts,
  overlay,
  onOverlay,
}: {
  looks: readonly CarriedLook[];
  facts: LookFacts | null;
  overlay: Overlay | null;
  onOverlay: (overlay: Overlay | null) => void;
}) {
  if (looks.length === 0)
    return <p className="quiet">No look has been written down yet: what looks say will stand here.</p>;
  const sentences = lookSentences(looks, facts);
  const has: Record<Overlay, boolean> = {
    heat: looks.some(({ first }) => first),
    predicted: facts !== null,
    focus: facts?.focus != null,
  };
  return (
    <>
      <p className="lead">
        {looks.length === 1 ? 'One look so far.' : `${sentence(countWord(looks.length))} looks so far.`}
      </p>
      {sentences.map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
      <div className="answers">
        {OVERLAYS.filter(({ overlay: it }) => has[it]).map(({ overlay: it, words }) => (
          <button
            key={it}
            type="button"
            className="answer"
            aria-pressed={overlay === it}
            onClick={() => onOverlay(overlay === it ? null : it)}
          >
            {words}
          </button>
        ))}
      </div>
      {overlay === 'predicted' && (
        <p className="quiet">
          The prediction knows contrast, surprise and the middle of the picture, no faces and no meaning: a
          hint, not more (Hou &amp; Zhang 2007; Judd and others 2009).
        </p>
      )}
      <details className="group">
        <summary>The looks one by one</summary>
        <ul className="outcomes">
          {looks.map((look) => (
            <li key={look.at}>{lookWords(look)}</li>
          ))}
        </ul>
      </details>
    </>
  );
}

const OVERLAYS: readonly { overlay: Overlay; words: string }[] = [
  { overlay: 'heat', words: 'where looks began' },
  { overlay: 'predicted', words: 'where it was predicted' },
  { overlay: 'focus', words: 'the focus' },
];

const VERDICTS = { done: 'done', oneMore: 'one more thing', rest: 'let it rest' } as const;

function lookWords({ at, version, by, seconds, mirrored, mood, pulledOut, verdict }: CarriedLook): string {
  const how = `${by === 'guest' ? 'a guest, ' : ''}${Math.max(1, Math.round(seconds))} s${mirrored ? ', mirrored' : ''}`;
  const said = [
    mood !== undefined && `the mood ${moodWord(mood)}`,
    pulledOut?.word && `pulled out by ${pulledOut.word}`,
    verdict && `verdict: ${VERDICTS[verdict]}`,
  ].filter((part) => typeof part === 'string');
  return `${sentence(when(at))}, version ${version} (${how})${said.length > 0 ? `: ${said.join('; ')}` : ''}.`;
}
