import { useState } from 'react';
import { go } from '../../app/route.ts';
import { clearClass, redoClass, undoClass } from '../../state/class.ts';
import type { ClassDocument } from '../../state/class-document.ts';
import { useClass } from '../../state/class-store.ts';
import { ClassComings } from './Comings.tsx';

/** The end of the margin: what else can be done, and where to go. */
export function ClassWay({ now }: { now: ClassDocument }) {
  const [asking, setAsking] = useState(false);
  return (
    <nav className="way" aria-label="The way around">
      <p>
        <ClassComings lead="Add" />.
      </p>
      <UndoSentence />
      {now.works.length > 0 &&
        (asking ? (
          <p>
            Files, readings and everything that was said go for good; save the pages first.{' '}
            <button
              type="button"
              className="clause"
              onClick={() => {
                setAsking(false);
                void clearClass();
              }}
            >
              Put it away
            </button>
            , or{' '}
            <button type="button" className="clause" onClick={() => setAsking(false)}>
              keep it
            </button>
            .
          </p>
        ) : (
          <p>
            <button type="button" className="clause" onClick={() => setAsking(true)}>
              Put this class away
            </button>
            .
          </p>
        ))}
      <p>
        <button type="button" className="clause" onClick={() => go({ screen: 'shelf' })}>
          The shelf
        </button>
        .
      </p>
    </nav>
  );
}

/** What can be undone and done again in the class. */
export function UndoSentence() {
  const history = useClass((state) => state.history);
  const undoable = history?.done.at(-1)?.words;
  const redoable = history?.undone.at(-1)?.words;
  if (!undoable && !redoable) return null;
  return (
    <p>
      {undoable && (
        <button type="button" className="clause" onClick={undoClass}>
          Undo {undoable}
        </button>
      )}
      {undoable && redoable && ', or '}
      {redoable && (
        <button type="button" className="clause" onClick={redoClass}>
          {undoable ? 'redo' : 'Redo'} {redoable}
        </button>
      )}
      .
    </p>
  );
}
