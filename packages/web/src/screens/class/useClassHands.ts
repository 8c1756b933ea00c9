import { useEffect } from 'react';
import { useManyDropped } from '../../parts/many/useManyDropped.ts';
import { redoClass, undoClass } from '../../state/class.ts';
import { takeIntoClass } from '../../state/class-taking.ts';

/** On the class's screen files that are dropped belong to the class, and undo is the class's. */
export function useClassHands(): void {
  useManyDropped(takeIntoClass);
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
      const target = event.target as HTMLElement;
      const key = event.key.toLowerCase();
      const chooser = document.querySelector<HTMLElement>('[data-choose-works]');
      if (key === 'o' && chooser) chooser.click();
      else if (target.closest('input, textarea')) return;
      else if (key === 'y' || (key === 'z' && event.shiftKey)) redoClass();
      else if (key === 'z') undoClass();
      else return;
      event.preventDefault();
      event.stopImmediatePropagation();
    };
    const options = { capture: true };
    window.addEventListener('keydown', onKey, options);
    return () => {
      window.removeEventListener('keydown', onKey, options);
    };
  }, []);
}
