import { create } from 'zustand';

/** How the class is looked at: a choice of this browser, no part of the class. */
export interface ClassView {
  readonly shown: 'plane' | 'findings' | 'list';
  /** Names of measures, "mood.key". */
  readonly across: string;
  readonly up: string;
  /** The work that is pointed at. */
  readonly pointed: string | null;
}

const KEY = 'halflight.class';

export const useClassView = create<ClassView>(() => ({
  shown: 'plane',
  across: 'mood.warmCool',
  up: 'mood.key',
  pointed: null,
  ...kept(),
}));

export function lookAt(change: Partial<Omit<ClassView, 'pointed'>>): void {
  useClassView.setState(change);
  const { shown, across, up } = useClassView.getState();
  try {
    localStorage.setItem(KEY, JSON.stringify({ shown, across, up }));
  } catch {
    // A private window may refuse: the choice then lasts as long as the page.
  }
}

export function pointAt(pointed: string | null): void {
  useClassView.setState({ pointed });
}

function kept(): Partial<ClassView> {
  try {
    const { shown, across, up } = JSON.parse(localStorage.getItem(KEY) ?? '{}') as Partial<ClassView>;
    return {
      ...(shown === 'findings' || shown === 'list' ? { shown } : {}),
      ...(typeof across === 'string' && { across }),
      ...(typeof up === 'string' && { up }),
    };
  } catch {
    return {};
  }
}
