/** One thing that a key does. */
export interface Key {
  readonly keys: readonly string[];
  /** What it does, to be read after the key. */
  readonly words: string;
  /** A key without Ctrl or Cmd: these can be switched off (WCAG 2.1.4). */
  readonly single: boolean;
}

/** Every key of the app; the list on "?" is this one. */
export const KEYS = {
  next: { keys: ['↓'], words: 'the next note', single: false },
  previous: { keys: ['↑'], words: 'the note before', single: false },
  open: { keys: ['Enter'], words: 'open or close a note', single: false },
  close: { keys: ['Esc'], words: 'close what is open', single: false },
  read: {
    keys: ['arrows', 'Enter'],
    words: 'on the picture: move the mark, read the place under it',
    single: false,
  },
  check: { keys: ['c'], words: 'the notes', single: true },
  intent: { keys: ['i'], words: 'the intent', single: true },
  rework: { keys: ['e'], words: 'the edit', single: true },
  standBack: { keys: ['l'], words: 'the quiet look', single: true },
  progress: { keys: ['v'], words: 'the versions and what they changed', single: true },
  thinout: { keys: ['t'], words: 'the layers', single: true },
  handover: { keys: ['h'], words: 'handing over', single: true },
  shelf: { keys: ['s'], words: 'the shelf', single: true },
  picture: { keys: ['p'], words: 'go to the picture', single: true },
  closer: { keys: ['+'], words: 'closer', single: true },
  farther: { keys: ['-'], words: 'farther', single: true },
  whole: { keys: ['0'], words: 'the whole picture', single: true },
  own: { keys: ['1'], words: 'the picture in its own pixels', single: true },
  before: { keys: ['b'], words: 'while it is held: the picture before the edit', single: true },
  help: { keys: ['?'], words: 'this list', single: true },
  choose: { keys: ['Ctrl O'], words: 'open pictures', single: false },
  paste: { keys: ['Ctrl V'], words: 'paste a picture', single: false },
  undo: { keys: ['Ctrl Z'], words: 'undo', single: false },
  redo: { keys: ['Ctrl Shift Z'], words: 'redo', single: false },
} as const satisfies Record<string, Key>;

export type KeyName = keyof typeof KEYS;

/** What a key press asks for, or null. `singles` says whether keys without Ctrl or Cmd count. */
export function keyWish(
  event: { key: string; ctrlKey: boolean; metaKey: boolean; shiftKey: boolean; altKey: boolean },
  singles: boolean,
): KeyName | null {
  if (event.altKey) return null;
  if (event.ctrlKey || event.metaKey) {
    const key = event.key.toLowerCase();
    if (key === 'z') return event.shiftKey ? 'redo' : 'undo';
    if (key === 'y') return 'redo';
    if (key === 'o') return 'choose';
    return null;
  }
  if (event.key === 'ArrowDown') return 'next';
  if (event.key === 'ArrowUp') return 'previous';
  if (event.key === 'Escape') return 'close';
  if (!singles) return null;
  const wish = SINGLES[event.key];
  return wish ?? null;
}

const SINGLES: Record<string, KeyName> = {
  c: 'check',
  i: 'intent',
  e: 'rework',
  b: 'before',
  l: 'standBack',
  v: 'progress',
  t: 'thinout',
  h: 'handover',
  s: 'shelf',
  p: 'picture',
  '+': 'closer',
  '=': 'closer',
  '-': 'farther',
  '0': 'whole',
  '1': 'own',
  '?': 'help',
};
