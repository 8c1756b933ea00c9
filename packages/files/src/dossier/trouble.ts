import { FileTrouble } from '../trouble.ts';

/** What can be wrong with a dossier, each with its sentences in one place. */
export const dossierTrouble = {
  cutOff: (name: string, cause?: unknown) =>
    new FileTrouble(
      'damaged',
      `“${name}” is damaged or cut off: it can’t be opened as a dossier.`,
      'Copy it again from where it came from.',
      cause,
    ),
  none: (name: string, why: string, cause?: unknown) =>
    new FileTrouble(
      'format',
      `“${name}” is not a dossier of Halflight: ${why}.`,
      'Choose a .halflight file.',
      cause,
    ),
  newer: (name: string, version: number) =>
    new FileTrouble(
      'format',
      `“${name}” was written by a newer Halflight (version ${version} of the format; this one reads 1).`,
      'Get the newer Halflight, or export the work again from the older one.',
    ),
  manifest: (name: string, what: string) =>
    new FileTrouble(
      'damaged',
      `The manifest of “${name}” can’t be used: ${what}.`,
      'If a program other than Halflight wrote it, compare it with docs/dossier.md.',
    ),
  hostile: (name: string, what: string, cause?: unknown) =>
    new FileTrouble(
      'format',
      `“${name}” is not safe to open: ${what}.`,
      'It was not made by Halflight like this; ask where it comes from. Nothing was written.',
      cause,
    ),
  missing: (name: string, path: string) =>
    new FileTrouble(
      'damaged',
      `“${name}” lacks “${path}”, which its manifest names.`,
      'Use another copy of it; what is left can still be exported.',
    ),
  changed: (name: string, path: string, cause?: unknown) =>
    new FileTrouble(
      'damaged',
      `In “${name}” the content of “${path}” is not what was put in: its checksum differs.`,
      'Use another copy of it; what is whole can still be exported.',
      cause,
    ),
} as const;
