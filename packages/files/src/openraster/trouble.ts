import { FileTrouble } from '../trouble.ts';

const AGAIN = 'Save it again from the program that made it.';

/** What can be wrong with a layered file, each with its sentences in one place. */
export const layeredTrouble = {
  cutOff: (name: string, cause?: unknown) =>
    new FileTrouble(
      'damaged',
      `“${name}” is damaged or cut off: it can’t be opened.`,
      'Copy it again from where it came from.',
      cause,
    ),
  none: (name: string, why: string, cause?: unknown) =>
    new FileTrouble(
      'format',
      `“${name}” is not an OpenRaster file: ${why}.`,
      'Choose a layered .ora file.',
      cause,
    ),
  hostile: (name: string, what: string, cause?: unknown) =>
    new FileTrouble(
      'format',
      `“${name}” is not safe to open: ${what}.`,
      `Ask where it comes from. ${AGAIN}`,
      cause,
    ),
  stack: (name: string, what: string, cause?: unknown) =>
    new FileTrouble('damaged', `The list of layers in “${name}” can’t be used: ${what}.`, AGAIN, cause),
  missing: (name: string, layer: string, src: string) =>
    new FileTrouble(
      'damaged',
      `In “${name}” the pixels of the layer “${layer}” are missing (${src}).`,
      AGAIN,
    ),
} as const;
