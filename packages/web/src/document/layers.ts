import { percent } from '@halflight/engine';
import { undoable } from './undo.ts';

/** What becomes of the options of a set that were not chosen. */
export type Others = 'drop' | 'hide';

/** One of several layers that stand for the same place. */
export interface Chosen {
  /** Paths of all of them. */
  readonly set: readonly string[];
  readonly kept: string;
  readonly others: Others;
}

/** A layer that stays apart, at the hue and strength it was closed with. */
export interface Settled {
  readonly path: string;
  /** Degrees that its hues are turned by. */
  readonly turn: number;
  /** 0…1, in place of its own. */
  readonly opacity: number;
}

/** What was decided about the layers of one file. The file itself is never changed. */
export interface Choices {
  /** Paths of layers that are taken away. */
  readonly dropped: readonly string[];
  readonly chosen: readonly Chosen[];
  readonly settled: readonly Settled[];
}

export type Choice =
  | { readonly kind: 'drop'; readonly paths: readonly string[] }
  | { readonly kind: 'keep'; readonly path: string }
  | { readonly kind: 'choose'; readonly chosen: Chosen }
  | { readonly kind: 'reopen'; readonly set: readonly string[] }
  | { readonly kind: 'settle'; readonly settled: Settled };

export const NO_CHOICES: Choices = { dropped: [], chosen: [], settled: [] };

/** Whether anything was decided. */
export function decided({ dropped, chosen, settled }: Choices): boolean {
  return dropped.length + chosen.length + settled.length > 0;
}

/** Paths that are not in the picture any more. */
export function goneOf({ dropped, chosen }: Choices): ReadonlySet<string> {
  const left = chosen
    .filter(({ others }) => others === 'drop')
    .flatMap(({ set, kept }) => set.filter((path) => path !== kept));
  return new Set([...dropped, ...left]);
}

/** What decides about these layers together. */
export function chosenOf({ chosen }: Choices, set: readonly string[]): Chosen | undefined {
  return chosen.find((one) => sameSet(one.set, set));
}

function apply(choices: Choices, choice: Choice): Choices {
  const { dropped, chosen, settled } = choices;
  switch (choice.kind) {
    case 'drop': {
      const fresh = choice.paths.filter((path) => !dropped.includes(path));
      return fresh.length === 0 ? choices : { ...choices, dropped: [...dropped, ...fresh] };
    }
    case 'keep':
      return dropped.includes(choice.path)
        ? { ...choices, dropped: dropped.filter((path) => path !== choice.path) }
        : choices;
    case 'choose':
      return {
        ...choices,
        chosen: [...chosen.filter(({ set }) => !sameSet(set, choice.chosen.set)), choice.chosen],
      };
    case 'reopen':
      return { ...choices, chosen: chosen.filter(({ set }) => !sameSet(set, choice.set)) };
    case 'settle': {
      const others = settled.filter(({ path }) => path !== choice.settled.path);
      return { ...choices, settled: [...others, choice.settled] };
    }
  }
}

function sameSet(a: readonly string[], b: readonly string[]): boolean {
  return a.length === b.length && a.every((path) => b.includes(path));
}

/** What undo would undo. */
export function choiceWords(choice: Choice): string {
  switch (choice.kind) {
    case 'drop':
      return choice.paths.length === 1
        ? `taking “${choice.paths[0]}” away`
        : `taking ${choice.paths.length} layers away`;
    case 'keep':
      return `bringing “${choice.path}” back`;
    case 'choose':
      return `choosing “${choice.chosen.kept}”`;
    case 'reopen':
      return 'opening the choice again';
    case 'settle':
      return `settling “${choice.settled.path}”`;
  }
}

export const layerHistory = undoable<Choices, Choice>(apply);

/** The choices rebuilt from what is kept of them, or null when it is no such thing. */
export function readKept(text: string | null): ReturnType<typeof layerHistory.begin> | null {
  if (text === null) return null;
  try {
    const { done, undone } = JSON.parse(text) as { done: Choice[]; undone: Choice[] };
    const all = [...done, ...undone];
    if (!all.every(({ kind }) => KINDS.includes(kind))) return null;
    return layerHistory.rebuild(NO_CHOICES, done, undone);
  } catch {
    return null;
  }
}

const KINDS: readonly Choice['kind'][] = ['drop', 'keep', 'choose', 'reopen', 'settle'];

/** How far two pictures are apart, for people who paint. */
export function differenceWords({ most, share }: { readonly most: number; readonly share: number }): string {
  const values = Math.ceil(most - 1e-3);
  if (values <= 0) return 'not one code value changes';
  if (share === 0) return 'no code value changes by more than one of 255';
  return `${percent(share)} of the picture changes, by up to ${values} code values of 255`;
}
