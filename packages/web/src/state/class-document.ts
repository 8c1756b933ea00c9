import type { Intent, Recipe } from '@halflight/engine';
import { byFileName, OPEN_INTENT } from '@halflight/engine';
import type { CritiqueMark, NamesShown } from '@halflight/pages';
import { type Undoable, undoable } from '../document/undo.ts';

/** A class: works that answer one assignment, with what was said about them. Plain data; the pixels are kept beside it. */
export interface ClassDocument {
  readonly schema: 'halflight/class@1';
  readonly title: string;
  /** What was asked for, one sentence; empty while it is not written down. */
  readonly assignment: string;
  /** Who speaks on the pages; empty for nobody. */
  readonly by: string;
  /** What the assignment decides; every work is read against it. */
  readonly intent: Intent;
  /** In the order of their files' names: no other order is kept of people. */
  readonly works: readonly ClassWork[];
  /** What was said, by the work. */
  readonly critiques: Readonly<Record<string, Critique>>;
  /** Sentences that are kept to be said again. */
  readonly phrases: readonly string[];
  readonly names: NamesShown;
}

/** One work of a class. */
export interface ClassWork {
  /** SHA-256 of its file. */
  readonly id: string;
  readonly file: string;
  readonly bytes: number;
  readonly mediaType: string;
  /** Whose work it is. */
  readonly who: string;
  /** Of the work; empty where it has none. */
  readonly title: string;
}

/** What was said about a work. */
export interface Critique {
  /** In the order in which they shall be read; praise comes before the rest on the page. */
  readonly points: readonly Point[];
  readonly proposal?: AttachedEdit;
  /** One sentence for the end. */
  readonly closing?: string;
}

export interface Point {
  /** Its name inside the critique. */
  readonly id: string;
  readonly kind: 'praise' | 'work';
  readonly text: string;
  readonly marks: readonly CritiqueMark[];
  /** The finding that it was taken from. */
  readonly finding?: string;
}

/** An edit shown with the critique as before and after. */
export interface AttachedEdit {
  readonly recipe: Recipe;
  /** What each step does and why, a sentence each. */
  readonly steps: readonly string[];
  readonly summary: string;
  /** Name of the edited picture in the store. */
  readonly picture: string;
  readonly width: number;
  readonly height: number;
}

/** What can be done to a class; `words` follow "undo". */
export type ClassCommand =
  | { readonly kind: 'add'; readonly words: string; readonly works: readonly ClassWork[] }
  | { readonly kind: 'remove'; readonly words: string; readonly id: string }
  | {
      readonly kind: 'name';
      readonly words: string;
      readonly id: string;
      readonly who: string;
      readonly title: string;
    }
  | { readonly kind: 'decide'; readonly words: string; readonly intent: Intent }
  | { readonly kind: 'say'; readonly words: string; readonly id: string; readonly critique: Critique }
  | { readonly kind: 'phrases'; readonly words: string; readonly phrases: readonly string[] }
  | {
      readonly kind: 'about';
      readonly words: string;
      readonly about: Partial<Pick<ClassDocument, 'title' | 'assignment' | 'by' | 'names'>>;
    };

export type ClassHistory = Undoable<ClassDocument, ClassCommand>;

export const NO_CRITIQUE: Critique = { points: [] };

/** A class before anything came. */
export const EMPTY_CLASS: ClassDocument = {
  schema: 'halflight/class@1',
  title: 'Class',
  assignment: '',
  by: '',
  intent: OPEN_INTENT,
  works: [],
  critiques: {},
  phrases: [],
  names: 'initials',
};

export const classHistory = undoable<ClassDocument, ClassCommand>(applyToClass);

/** The class after a command; the same object when it changes nothing. */
export function applyToClass(now: ClassDocument, command: ClassCommand): ClassDocument {
  switch (command.kind) {
    case 'add': {
      const known = new Set(now.works.map(({ id }) => id));
      const fresh = command.works.filter(({ id }) => !known.has(id) && known.add(id));
      if (fresh.length === 0) return now;
      return { ...now, works: [...now.works, ...fresh].sort(byName) };
    }
    case 'remove': {
      const works = now.works.filter(({ id }) => id !== command.id);
      return works.length === now.works.length ? now : { ...now, works };
    }
    case 'name': {
      const { id, who, title } = command;
      return { ...now, works: now.works.map((work) => (work.id === id ? { ...work, who, title } : work)) };
    }
    case 'decide':
      return { ...now, intent: command.intent };
    case 'say':
      return { ...now, critiques: { ...now.critiques, [command.id]: command.critique } };
    case 'phrases':
      return { ...now, phrases: command.phrases };
    case 'about':
      return { ...now, ...command.about };
  }
}

function byName(a: ClassWork, b: ClassWork): number {
  return byFileName(a.file, b.file) || (a.id < b.id ? -1 : 1);
}

export function critiqueOf(now: ClassDocument, id: string): Critique {
  return now.critiques[id] ?? NO_CRITIQUE;
}

/** The critique with a point moved by so many places among those of its kind. */
export function movePoint(critique: Critique, id: string, by: -1 | 1): Critique {
  const { points } = critique;
  const at = points.findIndex((point) => point.id === id);
  const kind = points[at]?.kind;
  let to = at + by;
  while (points[to] && points[to].kind !== kind) to += by;
  if (at < 0 || !points[to]) return critique;
  const next = [...points];
  [next[at], next[to]] = [next[to], next[at]];
  return { ...critique, points: next };
}

/** Points in the order of the page: what is strong comes first. */
export function inPageOrder(points: readonly Point[]): Point[] {
  return [...points.filter(({ kind }) => kind === 'praise'), ...points.filter(({ kind }) => kind === 'work')];
}

/** Words a minute of calm speech. Common practice, no source. */
export const SPOKEN = 130;

/** How long a critique takes to say, in seconds, with the number of its words. */
export function spokenLength({ points, closing = '' }: Critique): { words: number; seconds: number } {
  const text = [...points.map((point) => point.text), closing].join(' ');
  const words = text.match(/[\p{L}\p{N}][\p{L}\p{N}’'-]*/gu)?.length ?? 0;
  return { words, seconds: Math.round((60 * words) / SPOKEN) };
}
