import { create } from 'zustand';
import { type Settings, settingsOf } from '../document/settings.ts';

export type { Ground, Wall } from '../document/settings.ts';

const KEY = 'halflight.settings';

export const useSettings = create<Settings>(() => settingsOf(keptText()));

/** The page carries the choice, so that style sheet and drawings find it at once. */
function dress({ wall, ground }: Settings): void {
  document.documentElement.dataset.wall = wall;
  document.documentElement.dataset.ground = ground;
}
dress(useSettings.getState());
useSettings.subscribe(dress);

export function changeSettings(change: Partial<Settings>): void {
  useSettings.setState(change);
  try {
    localStorage.setItem(KEY, JSON.stringify(useSettings.getState()));
  } catch {
    // A private window may refuse: the choice then lasts as long as the page.
  }
}

/** A private window may refuse to be asked. */
function keptText(): string | null {
  try {
    return localStorage.getItem(KEY);
  } catch {
    return null;
  }
}
