import { useEffect } from 'react';

/**
 * Keys of a screen that stands beside the works: undo and redo are its own, and opening files opens what it takes.
 * Both functions have to stay the same from one drawing of the screen to the next.
 */
export function useOwnUndo(undo: () => void, redo: () => void): void {
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
      const target = event.target as HTMLElement;
      const key = event.key.toLowerCase();
      const chooser = document.querySelector<HTMLElement>('[data-choose-works]');
      if (key === 'o' && chooser) chooser.click();
      else if (target.closest('input, textarea')) return;
      else if (key === 'y' || (key === 'z' && event.shiftKey)) redo();
      else if (key === 'z') undo();
      else return;
      event.preventDefault();
      event.stopImmediatePropagation();
    };
    window.addEventListener('keydown', onKey, { capture: true });
    return () => window.removeEventListener('keydown', onKey, { capture: true });
  }, [undo, redo]);
}
