import { isRead } from '../../state/class-reading.ts';
import { goOnReading, pauseReading } from '../../state/class-run.ts';
import { useClass } from '../../state/class-store.ts';
import { readingWords, worksWord } from './words.ts';

/** How far the reading is, with a way to pause it and to go on. */
export function ClassReading() {
  const { reading, takingIn, paused, history, readings } = useClass();
  if (takingIn) {
    const { done, all } = takingIn;
    return (
      <div className="class-reading" role="status">
        <p>
          Taking in file {done + 1} of {all}
        </p>
        <progress aria-label="Taking files in" max={all} value={done} />
      </div>
    );
  }
  if (reading) {
    const { done, all, progress } = reading;
    return (
      <div className="class-reading">
        <p>{readingWords(reading)}.</p>
        <progress aria-label="Reading the class" max={all} value={done + (progress.share ?? 0)} />
        <p className="caption quiet">
          {progress.doing}.{' '}
          {paused ? (
            'It pauses after this work.'
          ) : (
            <button type="button" className="clause" onClick={pauseReading}>
              Pause
            </button>
          )}
        </p>
      </div>
    );
  }
  const key = JSON.stringify(history?.present.intent);
  const left = (history?.present.works ?? []).filter(({ id }) => {
    const it = readings[id];
    return !it || (isRead(it) && it.intent !== key);
  }).length;
  if (left === 0 || !paused) return null;
  return (
    <p className="class-reading">
      The reading pauses; {worksWord(left)} {left === 1 ? 'waits' : 'wait'}.{' '}
      <button type="button" className="clause" onClick={goOnReading}>
        Go on
      </button>
    </p>
  );
}
