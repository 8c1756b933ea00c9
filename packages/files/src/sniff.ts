import { type FileTrouble, trouble } from './trouble.ts';
import type { PictureFormat } from './types.ts';

/** What a file is by its content: a format that can be read, or the words for why it can't. */
export type Sniffed =
  | { readonly picture: PictureFormat }
  | { readonly picture: null; readonly trouble: FileTrouble };

interface Signature {
  /** Bytes at `at`, as Latin-1 text. */
  readonly text: string;
  readonly at?: number;
  /** What the file does, to follow its name: "is …". */
  readonly what: string;
  readonly todo: string;
}

const AS_PNG = 'Save or export it as PNG or TIFF.';
const SEND_JPEG =
  'Share it as JPEG instead: most phones and viewers can export a JPEG copy, and a phone’s camera settings can be changed to take JPEG.';

/** Things that people do drop on a tool for pictures. Signatures: the formats' own specifications. */
const OTHERS: readonly Signature[] = [
  { text: 'BM', what: 'is a BMP picture', todo: AS_PNG },
  { text: '8BPS', what: 'is a layered painting document', todo: 'Export a flat copy as PNG or TIFF.' },
  { text: '%PDF', what: 'is a PDF document', todo: 'Export the page you mean as PNG.' },
  { text: '\0\0\x01\0', what: 'is an icon', todo: AS_PNG },
  { text: '\xff\x0a', what: 'is a JPEG XL picture', todo: AS_PNG },
  { text: 'JXL ', at: 4, what: 'is a JPEG XL picture', todo: AS_PNG },
  { text: 'jP  ', at: 4, what: 'is a JPEG 2000 picture', todo: AS_PNG },
  { text: '\xff\x4f\xff\x51', what: 'is a JPEG 2000 picture', todo: AS_PNG },
  { text: '\x76\x2f\x31\x01', what: 'is an OpenEXR picture', todo: 'Export it as 16-bit PNG or TIFF.' },
  { text: '#?RADIANCE', what: 'is a Radiance HDR picture', todo: 'Export it as 16-bit PNG or TIFF.' },
  { text: 'qoif', what: 'is a QOI picture', todo: AS_PNG },
  { text: '\x1f\x8b', what: 'is a compressed file', todo: 'Unpack it and choose the picture inside.' },
  { text: '7z\xbc\xaf', what: 'is a compressed archive', todo: 'Unpack it and choose the picture inside.' },
];

/** Tells the format by content; the name is only for the sentence. Empty files and unknown ones are trouble. */
export function sniff(bytes: Uint8Array, name: string): Sniffed {
  if (bytes.length === 0) return no(trouble.empty(name));
  const has = (text: string, at = 0) => latin1(bytes, at, text.length) === text;
  if (has('\x89PNG\r\n\x1a\n')) return { picture: 'png' };
  if (has('\xff\xd8\xff')) return { picture: 'jpeg' };
  if (has('RIFF') && has('WEBP', 8)) return { picture: 'webp' };
  if (has('II*\0') || has('MM\0*') || has('II+\0') || has('MM\0+')) return { picture: 'tiff' };
  if (has('GIF87a') || has('GIF89a')) return { picture: 'gif' };
  if (has('ftyp', 4)) return sniffBoxes(bytes, name);
  if (has('PK\x03\x04')) return no(zipTrouble(bytes, name));
  for (const { text, at, what, todo } of OTHERS)
    if (has(text, at)) return no(trouble.format(name, what, todo));
  if (has('\x89PNG') || has('\xff\xd8')) return no(trouble.damaged(name));
  const said = textTrouble(bytes, name);
  return no(said ?? trouble.unknown(name));
}

/** Throws the trouble of a file that is no readable picture; otherwise gives its format. */
export function pictureFormat(bytes: Uint8Array, name: string): PictureFormat {
  const found = sniff(bytes, name);
  if (found.picture === null) throw found.trouble;
  return found.picture;
}

function no(why: FileTrouble): Sniffed {
  return { picture: null, trouble: why };
}

/** Files made of boxes (ISO/IEC 14496-12): the brands say what is inside. */
function sniffBoxes(bytes: Uint8Array, name: string): Sniffed {
  const size = Math.min(bytes.length, (bytes[0] << 24) | (bytes[1] << 16) | (bytes[2] << 8) | bytes[3], 256);
  const brands: string[] = [];
  for (let at = 8; at + 4 <= size; at += 4) if (at !== 12) brands.push(latin1(bytes, at, 4));
  if (brands.some((b) => b === 'avif' || b === 'avis')) return { picture: 'avif' };
  if (brands.some((b) => /^(hei|hev|mif1|msf1)/.test(b)))
    return no(trouble.format(name, 'is a HEIC picture', SEND_JPEG));
  if (brands.includes('crx '))
    return no(trouble.format(name, 'is a camera raw file', 'Develop it and export a TIFF or JPEG.'));
  return no(trouble.notAPicture(name, 'is a film or sound file'));
}

function zipTrouble(bytes: Uint8Array, name: string): FileTrouble {
  const start = latin1(bytes, 30, 200);
  if (start.startsWith('mimetype') && start.includes('image/openraster'))
    return trouble.format(
      name,
      'is a layered OpenRaster file',
      'Here a flat picture is needed: export it as PNG or TIFF.',
    );
  if (start.startsWith('mimetypeapplication/x-halflight-dossier'))
    return trouble.notAPicture(name, 'is a dossier, which holds a whole work');
  return trouble.notAPicture(name, 'is a ZIP archive or a document that is packed as one');
}

/** Text is told by its first bytes: valid UTF-8 without control characters. */
function textTrouble(bytes: Uint8Array, name: string): FileTrouble | null {
  const head = bytes.subarray(0, 1024);
  const text = new TextDecoder('utf-8').decode(head).replace(/\ufffd$/, '');
  for (const c of text) {
    const code = c.codePointAt(0) ?? 0;
    if (c === '\ufffd' || (code < 32 && !'\t\n\r\f'.includes(c))) return null;
  }
  if (/^\s*(<\?xml[^>]*>\s*|<!--[^>]*-->\s*|<!DOCTYPE[^>]*>\s*)*<svg/i.test(text))
    return trouble.format(name, 'is an SVG drawing', 'Export it as PNG at the size you want to judge.');
  return trouble.notAPicture(name, 'holds text');
}

function latin1(bytes: Uint8Array, at: number, length: number): string {
  let out = '';
  for (let i = at; i < Math.min(at + length, bytes.length); i++) out += String.fromCharCode(bytes[i]);
  return out;
}

const ENDINGS: Record<PictureFormat, { readonly said: string; readonly endings: RegExp }> = {
  png: { said: 'a PNG', endings: /\.(png|apng)$/i },
  jpeg: { said: 'a JPEG', endings: /\.(jpe?g|jpe|jfif)$/i },
  webp: { said: 'a WebP', endings: /\.webp$/i },
  tiff: { said: 'a TIFF', endings: /\.tiff?$/i },
  avif: { said: 'an AVIF', endings: /\.avif$/i },
  gif: { said: 'a GIF', endings: /\.gif$/i },
};

/** A note when the name's ending promises another format than the content is; null when they agree. */
export function endingNote(name: string, format: PictureFormat): string | null {
  const ending = /\.[a-z0-9]{1,5}$/i.exec(name)?.[0];
  if (!ending || ENDINGS[format].endings.test(ending)) return null;
  return `The file is ${ENDINGS[format].said} picture although its name ends in “${ending}”; it was read as what it is.`;
}
