import { readKept } from '../../document/layers.ts';
import type { LayerHistory } from './store.ts';

const KEY = 'halflight.layers.';
/** Files whose choices are kept beside the present one. */
const MOST = 20;

/** A name for layers of no work: what is decided about them lasts as long as the page. */
let count = 0;
const OWN = 'own ';
export const ownName = (): string => OWN + ++count;
export const isOwn = (of: string): boolean => of.startsWith(OWN);

/** What was decided about a work's file before; null when nothing is known. */
export function keptChoices(of: string): LayerHistory | null {
  try {
    return readKept(localStorage.getItem(KEY + of));
  } catch {
    return null;
  }
}

/** Keeps what was decided about a work's file. */
export function keep(of: string, { done, undone }: LayerHistory): void {
  if (isOwn(of)) return;
  try {
    localStorage.removeItem(KEY + of);
    const others = Object.keys(localStorage).filter((key) => key.startsWith(KEY));
    for (const key of others.slice(0, Math.max(0, others.length - MOST))) localStorage.removeItem(key);
    localStorage.setItem(KEY + of, JSON.stringify({ done, undone }));
  } catch {
    // A private window may refuse: what was decided then lasts as long as the page.
  }
}
