import { useEffect } from 'react';
import { Value } from '../../parts/Value.tsx';
import { setRework, useRework } from '../../state/rework.ts';
import { useSettings } from '../../state/settings.ts';

/** Held, it shows the picture before the edit; by keyboard it switches. */
export function BeforeButton() {
  const held = useRework((state) => state.held);
  const end = (): void => setRework({ held: false });
  return (
    <button
      type="button"
      className="answer before"
      aria-pressed={held}
      onPointerDown={(event) => {
        event.currentTarget.setPointerCapture(event.pointerId);
        setRework({ held: true });
      }}
      onPointerUp={end}
      onPointerCancel={end}
      onClick={(event) => {
        // A click without a pointer comes from the keyboard or from a screen reader.
        if (event.detail === 0) setRework({ held: !held });
      }}
      onContextMenu={(event) => event.preventDefault()}
    >
      before
    </button>
  );
}

/** The key that shows the picture before the edit while it is held. */
export function useHeldKey(): void {
  const singleKeys = useSettings((settings) => settings.singleKeys);
  useEffect(() => {
    if (!singleKeys) return;
    const onKey = (event: KeyboardEvent): void => {
      const writing = (event.target as HTMLElement).closest('input, textarea, select');
      if (event.key.toLowerCase() !== 'b' || event.ctrlKey || event.metaKey || event.altKey || writing)
        return;
      if (!event.repeat) setRework({ held: event.type === 'keydown' });
    };
    window.addEventListener('keydown', onKey);
    window.addEventListener('keyup', onKey);
    return () => {
      window.removeEventListener('keydown', onKey);
      window.removeEventListener('keyup', onKey);
    };
  }, [singleKeys]);
}

/** The ways to compare, as a sentence. */
export function CompareWords() {
  const { compare, pace, part } = useRework();
  const choose = (mode: 'side' | 'fade') => () => setRework({ compare: compare === mode ? 'none' : mode });
  const still = matchMedia('(prefers-reduced-motion: reduce)').matches;
  return (
    <p className="compare">
      Compare before and after{' '}
      <button type="button" className="clause" aria-pressed={compare === 'side'} onClick={choose('side')}>
        side by side
      </button>{' '}
      or{' '}
      <button type="button" className="clause" aria-pressed={compare === 'fade'} onClick={choose('fade')}>
        by a fade
      </button>
      {compare === 'fade' && !still && (
        <>
          , one in{' '}
          <Value
            label="Seconds of a fade"
            value={pace}
            min={1}
            max={10}
            step={0.5}
            digits={1}
            unit={'\u00a0s'}
            onChange={(value) => setRework({ pace: value })}
          />
        </>
      )}
      {compare === 'fade' && still && (
        <>
          , now{' '}
          <Value
            label="Share of the edit that is shown"
            value={Math.round(100 * part)}
            min={0}
            max={100}
            step={5}
            digits={0}
            unit={'\u00a0%'}
            onChange={(value) => setRework({ part: value / 100 })}
          />{' '}
          of the edit
        </>
      )}
      , or hold <em>before</em> at the picture.
    </p>
  );
}
