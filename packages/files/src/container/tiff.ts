import { ascii, viewOf } from './bytes.ts';
import type { Hints } from './hints.ts';

/** Entries of one directory (TIFF 6.0 section 2): tag to its count and the place of its value. */
export type Directory = Map<number, { readonly type: number; readonly count: number; readonly at: number }>;

/** A TIFF structure: byte order and the place of its first directory. Null when it is none (or a BigTIFF). */
export function openTiff(bytes: Uint8Array): { readonly little: boolean; readonly first: number } | null {
  const order = ascii(bytes, 0, 2);
  if (bytes.length < 8 || (order !== 'II' && order !== 'MM')) return null;
  const little = order === 'II';
  const view = viewOf(bytes);
  return view.getUint16(2, little) === 42 ? { little, first: view.getUint32(4, little) } : null;
}

const SIZES = [0, 1, 1, 2, 4, 8, 1, 1, 2, 4, 8, 4, 8];

export function readDirectory(bytes: Uint8Array, at: number, little: boolean): Directory {
  const view = viewOf(bytes);
  const entries: Directory = new Map();
  const count = view.getUint16(at, little);
  for (let i = 0; i < count; i++) {
    const entry = at + 2 + 12 * i;
    const type = view.getUint16(entry + 2, little);
    const values = view.getUint32(entry + 4, little);
    const inside = (SIZES[type] ?? 1) * values <= 4;
    entries.set(view.getUint16(entry, little), {
      type,
      count: values,
      at: inside ? entry + 8 : view.getUint32(entry + 8, little),
    });
  }
  return entries;
}

/** First value of an entry, as a number (BYTE, SHORT or LONG). */
export function numberOf(
  bytes: Uint8Array,
  entries: Directory,
  tag: number,
  little: boolean,
): number | undefined {
  const entry = entries.get(tag);
  if (!entry) return undefined;
  const view = viewOf(bytes);
  if (entry.type === 3) return view.getUint16(entry.at, little);
  return entry.type === 4 || entry.type === 13 ? view.getUint32(entry.at, little) : bytes[entry.at];
}

const NEW_SUBFILE_TYPE = 254;
const DNG_VERSION = 50706;

/** Camera raw files are TIFF structures whose first picture is a small preview: it must not be judged. */
export function tiffHints(bytes: Uint8Array): Hints {
  const tiff = openTiff(bytes);
  if (!tiff) return {};
  const entries = readDirectory(bytes, tiff.first, tiff.little);
  const reduced = ((numberOf(bytes, entries, NEW_SUBFILE_TYPE, tiff.little) ?? 0) & 1) === 1;
  return reduced || entries.has(DNG_VERSION) ? { rawPreview: true } : {};
}
