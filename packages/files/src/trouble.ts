/** What kind of trouble it is, for code that reacts differently; people read the sentences. */
export type TroubleKind =
  | 'empty'
  | 'not-a-picture'
  | 'format'
  | 'damaged'
  | 'too-large'
  | 'missing'
  | 'folder'
  | 'permission'
  | 'memory'
  | 'write'
  | 'option'
  | 'setup';

/** A file that can't be read or written, in words for the person who chose it. */
export class FileTrouble extends Error {
  override readonly name = 'FileTrouble';
  readonly kind: TroubleKind;
  /** What is wrong, one sentence that names the file. */
  readonly sentence: string;
  /** What to do about it, one sentence. */
  readonly todo: string;

  /** `cause` may keep a library's technical text; it is never shown. */
  constructor(kind: TroubleKind, sentence: string, todo: string, cause?: unknown) {
    super(`${sentence} ${todo}`, cause === undefined ? undefined : { cause });
    this.kind = kind;
    this.sentence = sentence;
    this.todo = todo;
  }
}

const CAN_READ = 'PNG, JPEG, WebP, TIFF, AVIF or GIF';

/** The troubles that more than one place can meet, each with its sentences in one place. */
export const trouble = {
  empty: (name: string) =>
    new FileTrouble('empty', `“${name}” is empty: it has 0 bytes.`, 'Export it again, or pick another copy.'),
  notAPicture: (name: string, what: string) =>
    new FileTrouble('not-a-picture', `“${name}” is not a picture: it ${what}.`, `Choose a ${CAN_READ} file.`),
  unknown: (name: string) =>
    new FileTrouble(
      'format',
      `“${name}” is not a kind of picture that can be read here.`,
      `Export it as ${CAN_READ}.`,
    ),
  format: (name: string, what: string, todo: string) =>
    new FileTrouble('format', `“${name}” ${what}, which can’t be read here.`, todo),
  damaged: (name: string, cause?: unknown) =>
    new FileTrouble(
      'damaged',
      `“${name}” is damaged or cut off: its picture can’t be read to the end.`,
      'Copy it again from where it came from, or export it again.',
      cause,
    ),
  hollow: (name: string, width: number, height: number, bytes: number) =>
    new FileTrouble(
      'damaged',
      `“${name}” is cut off or damaged: its ${bytes} bytes can’t hold the ${width} × ${height} pixels that it claims.`,
      'Copy it again from where it came from, or export it again.',
    ),
  tooLarge: (name: string, width: number, height: number, limitMegapixels: number) =>
    new FileTrouble(
      'too-large',
      `“${name}” has ${megapixels(width, height)} megapixels (${width} × ${height}); the limit is ${limitMegapixels}.`,
      'Scale a copy down, or raise the limit if this machine has the memory.',
    ),
  memory: (name: string, cause?: unknown) =>
    new FileTrouble(
      'memory',
      `There is not enough memory to read “${name}”.`,
      'Close other pictures or programs, or open a smaller copy.',
      cause,
    ),
};

function megapixels(width: number, height: number): string {
  const n = (width * height) / 1e6;
  return n < 10 ? n.toFixed(1) : Math.ceil(n).toString();
}
