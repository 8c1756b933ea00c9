import { useEffect } from 'react';
import { redoChoice, undoChoice } from '../../state/thinout/deciding.ts';

/** On this screen undo takes back what was decided about layers, and opening files opens layers. */
export function useThinoutHands(): void {
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
      const target = event.target as HTMLElement;
      const key = event.key.toLowerCase();
      const chooser = document.querySelector<HTMLElement>('[data-choose-works]');
      if (key === 'o' && chooser) chooser.click();
      else if (target.closest('input, textarea')) return;
      else if (key === 'y' || (key === 'z' && event.shiftKey)) redoChoice();
      else if (key === 'z') undoChoice();
      else return;
      event.preventDefault();
      event.stopImmediatePropagation();
    };
    window.addEventListener('keydown', onKey, { capture: true });
    return () => window.removeEventListener('keydown', onKey, { capture: true });
  }, []);
}
