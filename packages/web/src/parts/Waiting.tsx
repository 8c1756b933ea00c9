import { useEffect, useState } from 'react';
import type { Progress } from '../picture/desk.ts';

/**
 * What is shown while something takes its time: nothing under 100 ms, a quiet line under a second, above it a
 * bar with what is being done and a way to stop.
 */
export function Waiting({
  what,
  progress,
  onStop,
}: {
  what: string;
  progress: Progress;
  onStop: () => void;
}) {
  const [stage, setStage] = useState<'nothing' | 'line' | 'bar'>('nothing');
  useEffect(() => {
    const line = setTimeout(() => setStage('line'), 100);
    const bar = setTimeout(() => setStage('bar'), 1000);
    return () => {
      clearTimeout(line);
      clearTimeout(bar);
    };
  }, []);

  if (stage === 'nothing') return null;
  if (stage === 'line') return <p className="waiting quiet">{what}</p>;
  const { doing, share } = progress;
  return (
    <div className="waiting" role="status">
      <p>{what}</p>
      <progress aria-label={doing} max={1} {...(share === null ? {} : { value: share })} />
      <p className="caption quiet">{doing}</p>
      <button type="button" className="answer" onClick={onStop}>
        Stop
      </button>
    </div>
  );
}
