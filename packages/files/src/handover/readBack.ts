import { checkRecipe, type Recipe } from '@halflight/engine';
import { parseXml, XmlElement } from '@rgrove/parse-xml';
import { FileTrouble } from '../trouble.ts';

/** What a page or a sheet has to hold when it is read again. */
export interface MeantMarkup {
  /** How many elements of a name there are. */
  readonly counts: Readonly<Record<string, number>>;
  /** Texts that stand in it, one after the other. */
  readonly texts: readonly string[];
  /** Values of `fill` that are in it. */
  readonly fills?: readonly string[];
}

/** @throws FileTrouble when JSON does not parse to what was meant; fractions may be rounded to six digits */
export function holdJson(text: string, meant: unknown, name: string): void {
  hold(name, () => same(JSON.parse(text), JSON.parse(JSON.stringify(meant))));
}

/** @throws FileTrouble when an edit does not parse, is refused by its own schema or has other steps than were meant */
export function holdRecipe(text: string, meant: Recipe, name: string): void {
  hold(name, () => {
    const read = checkRecipe(JSON.parse(text));
    return read.ok && same(read.value, JSON.parse(JSON.stringify(meant)));
  });
}

/** @throws FileTrouble when the custom properties in CSS are not those that were meant, in their order */
export function holdCss(text: string, meant: readonly string[], name: string): void {
  hold(name, () => {
    const rule = /^\s*:root\s*\{([^{}]*)\}\s*$/.exec(text.replace(/\/\*[\s\S]*?\*\//g, ''));
    const lines = rule?.[1].split(';').map((line) => line.trim()) ?? [];
    const values = lines.filter(Boolean).map((line) => /^--[a-z0-9-]+\s*:\s*(\S+)$/.exec(line)?.[1]);
    const names = lines.filter(Boolean).map((line) => line.split(':')[0]);
    return same(values, meant) && new Set(names).size === meant.length;
  });
}

/**
 * Reads SVG, or HTML of ours, by a parser of XML.
 *
 * @throws FileTrouble when it does not parse or does not hold what was meant
 */
export function holdMarkup(text: string, { counts, texts, fills = [] }: MeantMarkup, name: string): void {
  hold(name, () => {
    // HTML leaves these elements open; what is in their attributes has no bare “>”.
    const { root } = parseXml(text.replace(/(<(?:meta|img)\b[^>]*)(?<!\/)>/g, '$1/>'));
    if (!root) return false;
    const all = elementsOf(root);
    const said = plain(root.text);
    let at = 0;
    for (const one of texts.map(plain)) {
      const found = said.indexOf(one, at);
      if (found < 0) return false;
      at = found + one.length;
    }
    return (
      Object.entries(counts).every(
        ([key, count]) => all.filter((element) => element.name === key).length === count,
      ) && fills.every((fill) => all.some(({ attributes }) => attributes.fill === fill))
    );
  });
}

/**
 * Follows a PDF from its end: the table of places leads to every object, compressed streams inflate (with their
 * checksum) and there are as many pages as were meant.
 *
 * @throws FileTrouble when that is not so
 *
 * Source: ISO 32000-1, sections 7.3.8 (streams) and 7.5 (file structure).
 */
export async function holdPdf(bytes: Uint8Array, pages: number, name: string): Promise<void> {
  const text = new TextDecoder('latin1').decode(bytes);
  const end = /startxref\s+(\d+)\s+%%EOF\s*$/.exec(text.slice(-64));
  const start = Number(end?.[1]);
  const table = end && /^xref\s+0 (\d+)\s+/.exec(text.slice(start, start + 40));
  if (!text.startsWith('%PDF-1.') || !table) throw notAsMeant(name);
  const from = start + table[0].length;
  const count = Number(table[1]);
  if (!text.slice(from + 20 * count).startsWith('trailer')) throw notAsMeant(name);
  let found = 0;
  for (let k = 1; k < count; k++) {
    const entry = /^(\d{10}) (\d{5}) ([fn])/.exec(text.slice(from + 20 * k, from + 20 * k + 20));
    if (!entry) throw notAsMeant(name);
    if (entry[3] === 'f') continue;
    const at = Number(entry[1]);
    if (!text.startsWith(`${k} ${Number(entry[2])} obj`, at)) throw notAsMeant(name);
    const close = text.indexOf('endobj', at);
    const open = /\bstream\r?\n/.exec(text.slice(at, close < 0 ? at : Math.min(close, at + 4096)));
    const head = text.slice(at, open ? at + open.index : close);
    if (close < 0) throw notAsMeant(name);
    if (/\/Type\s*\/Page\b/.test(head)) found++;
    const length = Number(/\/Length (\d+)(?! \d+ R)/.exec(head)?.[1] ?? Number.NaN);
    if (!open || Number.isNaN(length)) continue;
    const first = at + open.index + open[0].length;
    if (!/^\s*endstream/.test(text.slice(first + length, first + length + 12))) throw notAsMeant(name);
    if (/\/FlateDecode/.test(head) && !(await inflates(bytes.slice(first, first + length))))
      throw notAsMeant(name);
  }
  if (found !== pages) throw notAsMeant(name);
}

async function inflates(bytes: Uint8Array<ArrayBuffer>): Promise<boolean> {
  try {
    await new Response(
      new Blob([bytes]).stream().pipeThrough(new DecompressionStream('deflate')),
    ).arrayBuffer();
    return true;
  } catch {
    return false;
  }
}

function hold(name: string, isMeant: () => boolean): void {
  let good = false;
  try {
    good = isMeant();
  } catch (error) {
    throw notAsMeant(name, error);
  }
  if (!good) throw notAsMeant(name);
}

function notAsMeant(name: string, error?: unknown): FileTrouble {
  return new FileTrouble(
    'write',
    `“${name}” did not read back as it was meant.`,
    'Nothing was kept of it. Please tell the makers of Halflight.',
    error === undefined ? undefined : String(error),
  );
}

const elementsOf = (element: XmlElement): XmlElement[] => [
  element,
  ...element.children.filter((child) => child instanceof XmlElement).flatMap(elementsOf),
];

const plain = (text: string): string => text.replace(/\s+/g, '');

function same(read: unknown, meant: unknown): boolean {
  if (typeof read === 'number' && typeof meant === 'number')
    return Math.abs(read - meant) <= 1e-5 * Math.abs(meant);
  if (typeof read !== 'object' || typeof meant !== 'object' || !read || !meant) return read === meant;
  const keys = Object.keys(meant);
  return (
    Array.isArray(read) === Array.isArray(meant) &&
    Object.keys(read).length === keys.length &&
    keys.every((key) => same(Reflect.get(read, key), Reflect.get(meant, key)))
  );
}
