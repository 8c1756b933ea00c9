import { NoteFrame } from '../../../parts/NoteFrame.tsx';
import { performOnClass } from '../../../state/class.ts';
import { movePoint, type Point } from '../../../state/class-document.ts';
import { set } from '../../../state/session.ts';
import { KeptText } from '../KeptText.tsx';
import { change, changePoint, drawMark, noteOf } from './saying.ts';

const MARK_WORDS = { pin: 'pin', stroke: 'stroke', outline: 'outline' } as const;

/** One point of the critique: its words, its marks, its place in the order. */
export function PointNote({
  work,
  point,
  number,
  place,
  phrases,
}: {
  work: string;
  point: Point;
  number: number;
  /** Whether others of its kind stand before and after it. */
  place: { readonly before: boolean; readonly after: boolean };
  phrases: readonly string[];
}) {
  const { id, kind, text, marks } = point;
  const known = phrases.includes(text);
  const write = (next: string): void => changePoint(work, id, 'what is written', { text: next });
  return (
    <NoteFrame name={noteOf(id)} sentence={`${number}. ${text || 'Nothing is written yet.'}`}>
      <KeptText
        label={kind === 'praise' ? 'What is strong here' : 'What to work on here'}
        value={text}
        rows={4}
        focused={text === ''}
        onKeep={write}
      />
      <p>
        It is{' '}
        <button
          type="button"
          className="clause"
          onClick={() =>
            changePoint(work, id, kind === 'praise' ? 'calling it work' : 'calling it praise', {
              kind: kind === 'praise' ? 'work' : 'praise',
            })
          }
        >
          {kind === 'praise' ? 'praise' : 'something to work on'}
        </button>
        ; add{' '}
        {(['pin', 'stroke', 'outline'] as const).map((it, index) => (
          <span key={it}>
            {index > 0 && (index === 2 ? ' or ' : ', ')}
            <button type="button" className="clause" onClick={() => drawMark(work, it, point)}>
              {it === 'outline' ? 'an outline' : `a ${it}`}
            </button>
          </span>
        ))}
        .
      </p>
      {marks.length > 0 && (
        <p className="quiet">
          Take away{' '}
          {marks.map((mark, index) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: marks have no names, their place in the list is their name
            <span key={index}>
              {index > 0 && (index === marks.length - 1 ? ' or ' : ', ')}
              <button
                type="button"
                className="clause"
                onClick={() =>
                  changePoint(work, id, `taking the ${MARK_WORDS[mark.kind]} away`, {
                    marks: marks.filter((_, at) => at !== index),
                  })
                }
              >
                {marks.length === 1
                  ? `the ${MARK_WORDS[mark.kind]}`
                  : `${MARK_WORDS[mark.kind]} ${index + 1}`}
              </button>
            </span>
          ))}
          .
        </p>
      )}
      <p>
        {phrases.length > 0 && (
          <>
            <select
              className="clause"
              aria-label="Use kept words"
              value=""
              onChange={(event) => write([text, event.target.value].filter(Boolean).join(' '))}
            >
              <option value="">Use kept words</option>
              {phrases.map((phrase) => (
                <option key={phrase} value={phrase}>
                  {phrase}
                </option>
              ))}
            </select>
            {text && !known && '; '}
          </>
        )}
        {text && !known && (
          <button
            type="button"
            className="clause"
            onClick={() =>
              performOnClass({ kind: 'phrases', words: 'keeping words', phrases: [...phrases, text] })
            }
          >
            {phrases.length > 0 ? 'keep these words for others' : 'Keep these words for others'}
          </button>
        )}
        {(phrases.length > 0 || text) && '.'}
      </p>
      <div className="answers">
        <button
          type="button"
          className="answer"
          disabled={!place.before}
          onClick={() => change(work, 'the order', (critique) => movePoint(critique, id, -1))}
        >
          say it earlier
        </button>
        <button
          type="button"
          className="answer"
          disabled={!place.after}
          onClick={() => change(work, 'the order', (critique) => movePoint(critique, id, 1))}
        >
          say it later
        </button>
        <button
          type="button"
          className="answer"
          onClick={() => {
            set({ openNote: null });
            change(work, 'taking a point back', (critique) => ({
              ...critique,
              points: critique.points.filter((it) => it.id !== id),
            }));
          }}
        >
          take it back
        </button>
      </div>
    </NoteFrame>
  );
}
