/** What a pattern of file names may ask for. */
export interface NameWords {
  /** The picture's own file name without its ending. */
  readonly name: string;
  readonly title: string;
  readonly preset: string;
  readonly width: number;
  readonly height: number;
  /** Its place in a series, from 1. */
  readonly number: number;
}

const WORDS: readonly (keyof NameWords)[] = ['name', 'title', 'preset', 'width', 'height', 'number'];

/** What Windows and file systems of shared disks refuse (Microsoft, "Naming Files, Paths, and Namespaces"). */
const RESERVED = /^(con|prn|aux|nul|com[0-9]|lpt[0-9])(\.|$)/i;
const UNSAFE = /[<>:"/\\|?*]/;
/** Bytes that file systems allow for a name are 255; room is left for endings and drafts. */
const LONGEST = 180;

/** What is wrong with a pattern of names, one sentence; null when it can be used. */
export function nameTrouble(pattern: string): string | null {
  if (pattern.trim() === '') return 'a file needs a name; “{name}” keeps the picture’s own.';
  const unknown = [...pattern.matchAll(/\{([^{}]*)\}/g)].find(
    ([, word]) => !(WORDS as readonly string[]).includes(word),
  );
  if (unknown)
    return `“{${unknown[1]}}” is not known in names; known are ${WORDS.map((w) => `{${w}}`).join(', ')}.`;
  const rest = pattern.replace(/\{[^{}]*\}/g, '');
  if (/[{}]/.test(rest)) return 'a brace in the name has no partner.';
  if (UNSAFE.test(rest) || hasControl(rest))
    return `a name can’t hold / \\ : * ? " < > | because not every disk takes them.`;
  if (RESERVED.test(pattern)) return `“${pattern}” is a name that Windows keeps for itself.`;
  if (/^[.~-]/.test(pattern)) return 'a name should not begin with a dot, a tilde or a hyphen.';
  return null;
}

/**
 * The name of a file, without ending, that every disk takes: what words bring along that is not safe becomes "-".
 * The pattern is one that `nameTrouble` lets pass.
 */
export function fileName(pattern: string, words: NameWords): string {
  const filled = pattern.replace(/\{([^{}]*)\}/g, (_, word: string) => {
    if (word === 'title' && words.title === '') return words.name;
    return String(words[word as keyof NameWords] ?? '');
  });
  const safe = [...filled]
    .map((c) => (UNSAFE.test(c) || hasControl(c) ? '-' : c))
    .join('')
    .replace(/\s+/g, ' ')
    .replace(/^[.~\s-]+/, '')
    .replace(/[.\s]+$/, '');
  const whole = safe === '' ? 'picture' : RESERVED.test(safe) ? `picture ${safe}` : safe;
  return shorten(whole).trim();
}

function hasControl(text: string): boolean {
  return [...text].some((c) => (c.codePointAt(0) ?? 0) < 32 || c === '\u007f');
}

function shorten(text: string): string {
  let out = '';
  let bytes = 0;
  for (const c of text) {
    bytes += utf8Bytes(c.codePointAt(0) ?? 0);
    if (bytes > LONGEST) break;
    out += c;
  }
  return out;
}

function utf8Bytes(code: number): number {
  return code < 0x80 ? 1 : code < 0x800 ? 2 : code < 0x10000 ? 3 : 4;
}
