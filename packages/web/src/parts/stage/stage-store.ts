import { create } from 'zustand';
import type { StageView } from './view.ts';

/** Where the picture stands on the page, for all that is drawn over it. */
export interface StageState {
  readonly view: StageView;
  /** The stage's box on the page, CSS pixels. */
  readonly box: {
    readonly left: number;
    readonly top: number;
    readonly width: number;
    readonly height: number;
  };
}

export const useStage = create<StageState>(() => ({
  view: { scale: 1, x: 0, y: 0 },
  box: { left: 0, top: 0, width: 0, height: 0 },
}));
