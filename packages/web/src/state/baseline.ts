import type { Baseline } from '@halflight/engine';
import { create } from 'zustand';

/** Where the artist's finished works lie, and whether notes are told beside it. */
export interface OwnBaseline {
  readonly baseline: Baseline | null;
  readonly used: boolean;
}

const KEY = 'halflight.baseline';

/** It is small, and the page needs it with the first reading: it is kept where settings are. */
export const useBaseline = create<OwnBaseline>(() => keptBaseline());

/** The baseline that readings stand beside; null when there is none or it is left out. */
export function baselineInUse(): Baseline | null {
  const { baseline, used } = useBaseline.getState();
  return used ? baseline : null;
}

/** Takes a baseline, leaves it out or in, or forgets it; tells whether the browser keeps that. */
export function changeBaseline(change: Partial<OwnBaseline>): boolean {
  useBaseline.setState(change);
  try {
    localStorage.setItem(KEY, JSON.stringify(useBaseline.getState()));
    return true;
  } catch {
    return false;
  }
}

function keptBaseline(): OwnBaseline {
  try {
    const kept = JSON.parse(localStorage.getItem(KEY) ?? 'null') as Partial<OwnBaseline> | null;
    const fits = kept?.baseline?.schema === 'halflight/baseline@1';
    return { baseline: fits ? (kept.baseline ?? null) : null, used: kept?.used !== false };
  } catch {
    return { baseline: null, used: true };
  }
}
