import { useManyDropped } from '../../parts/many/useManyDropped.ts';
import { useOwnUndo } from '../../parts/many/useOwnUndo.ts';
import { redoClass, undoClass } from '../../state/class.ts';
import { takeIntoClass } from '../../state/class-taking.ts';

/** On the class's screen files that are dropped belong to the class, and undo is the class's. */
export function useClassHands(): void {
  useManyDropped(takeIntoClass);
  useOwnUndo(undoClass, redoClass);
}
