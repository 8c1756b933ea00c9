import { type Choice, choiceWords, layerHistory } from '../../document/layers.ts';
import { say } from '../session.ts';
import { keep } from './kept.ts';
import { look } from './looking.ts';
import { get, type LayerHistory, set } from './store.ts';
import { plan } from './weighing.ts';

/** Decides something, and looks at the result. */
export function decide(choice: Choice): void {
  travel(layerHistory.step(get().history, { kind: 'do', command: choice }));
}

export function undoChoice(): void {
  const words = undoChoiceWords(get().history);
  if (words && travel(layerHistory.step(get().history, { kind: 'undo' }))) say(`Undone: ${words}.`);
}

export function redoChoice(): void {
  const words = redoChoiceWords(get().history);
  if (words && travel(layerHistory.step(get().history, { kind: 'redo' }))) say(`Done again: ${words}.`);
}

export function undoChoiceWords({ done }: LayerHistory): string | null {
  const choice = done.at(-1);
  return choice ? choiceWords(choice) : null;
}

export function redoChoiceWords({ undone }: LayerHistory): string | null {
  const choice = undone.at(-1);
  return choice ? choiceWords(choice) : null;
}

function travel(history: LayerHistory): boolean {
  if (history === get().history) return false;
  set({ history, turned: [] });
  const { of, arrangement } = get();
  if (of !== null && arrangement === null) keep(of, history);
  void look();
  void plan();
  return true;
}
