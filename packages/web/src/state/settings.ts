import { create } from 'zustand';

/** What the artist chose about the surroundings; kept in the browser. */
export interface Settings {
  readonly wall: Wall;
  readonly ground: Ground;
  /** Keys without Ctrl or Cmd do something (WCAG 2.1.4: they can be switched off). */
  readonly singleKeys: boolean;
  /** The cautions were read once. */
  readonly cautioned: boolean;
}

export type Wall = 'dark' | 'middle' | 'paper';
export type Ground = 'dark' | 'paper';

const KEY = 'halflight.settings';
const DEFAULTS: Settings = { wall: 'middle', ground: 'dark', singleKeys: true, cautioned: false };

export const useSettings = create<Settings>(() => load());

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

function load(): Settings {
  try {
    const kept = JSON.parse(localStorage.getItem(KEY) ?? '{}') as Partial<Settings>;
    return {
      wall: kept.wall === 'dark' || kept.wall === 'paper' ? kept.wall : DEFAULTS.wall,
      ground: kept.ground === 'paper' ? 'paper' : DEFAULTS.ground,
      singleKeys: kept.singleKeys !== false,
      cautioned: kept.cautioned === true,
    };
  } catch {
    return DEFAULTS;
  }
}
