import { useEffect } from 'react';
import { useSession } from '../state/session.ts';
import { canWatch, endWatch, findWatch, readAgain, renewWatch, useWatch, watchFile } from '../state/watch.ts';
import { chooseByDialog } from './FileInput.tsx';

/** The file that the painting program saves: watched, or one tap away from it. */
export function WatchWords({ work }: { work: string }) {
  const watched = useWatch((state) => state.watched);
  const writable = useSession((session) => session.writable);
  useEffect(() => void findWatch(work).catch(() => undefined), [work]);
  if (watched === null || watched.work !== work) {
    if (!writable) return null;
    if (!canWatch()) {
      return (
        <p>
          <button
            type="button"
            className="clause"
            onClick={() => void readAgain(() => chooseByDialog('next'))}
          >
            Read its file again
          </button>{' '}
          when you have saved it.
        </p>
      );
    }
    return (
      <p>
        <button type="button" className="clause" onClick={() => void watchFile()}>
          Watch its file
        </button>
        : every save of it is read as the next version.
      </p>
    );
  }
  const { name, state } = watched;
  return (
    <p>
      {state === 'asks' ? (
        <>
          <button type="button" className="clause" onClick={() => void renewWatch()}>
            Watch {name} again
          </button>
          {'; the browser asks once more after a reload. Or '}
        </>
      ) : state === 'lost' ? (
        `${name} can’t be reached: it is read when it comes back. Or `
      ) : (
        `Every save of ${name} is read. `
      )}
      <button type="button" className="clause" onClick={() => void endWatch()}>
        {state === 'on' ? 'Stop watching' : 'stop watching'}
      </button>
      .
    </p>
  );
}
