import { constants } from 'node:fs';
import { open } from 'node:fs/promises';
import { basename } from 'node:path';
import { FileTrouble } from '../trouble.ts';
import type { Codec, Decoded, DecodeOptions } from '../types.ts';

export interface ReadOptions extends Partial<DecodeOptions> {
  readonly codec: Codec;
}

/** Files above this are refused unread: no picture within the pixel limit is as large. */
const MOST_BYTES = 2 ** 31 - 1;

/** Reads a picture from a path. Rejects with `FileTrouble`, also for what is wrong with the path. */
export async function readPicture(path: string, { codec, ...options }: ReadOptions): Promise<Decoded> {
  const name = options.name ?? basename(path);
  const bytes = await readBytes(path, name);
  return codec.decode(bytes, { ...options, name });
}

/** A file's bytes. Rejects with `FileTrouble` for a missing file, a folder, no permission and the like. */
export async function readBytes(path: string, name = basename(path)): Promise<Uint8Array> {
  try {
    // Without waiting: a pipe that nobody writes to would hang the command for ever.
    const file = await open(path, constants.O_RDONLY | constants.O_NONBLOCK);
    try {
      const facts = await file.stat();
      if (facts.isDirectory()) throw folder(name);
      if (!facts.isFile())
        throw new FileTrouble(
          'not-a-picture',
          `“${name}” is not a file but a device or pipe.`,
          'Choose a picture file.',
        );
      if (facts.size > MOST_BYTES)
        throw new FileTrouble(
          'too-large',
          `“${name}” is larger than 2 GB.`,
          'Scale a copy down, or save it compressed.',
        );
      return await file.readFile();
    } finally {
      await file.close();
    }
  } catch (error) {
    throw error instanceof FileTrouble ? error : pathTrouble(error, path, name);
  }
}

function folder(name: string): FileTrouble {
  return new FileTrouble('folder', `“${name}” is a folder.`, 'Choose the pictures inside it.');
}

/** Words for a path that can't be read. */
export function pathTrouble(error: unknown, path: string, name: string): FileTrouble {
  const code = (error as NodeJS.ErrnoException).code ?? '';
  if (code === 'ENOENT' || code === 'ENOTDIR')
    return new FileTrouble('missing', `There is no file “${path}”.`, 'Check the name and the folder.', error);
  if (code === 'EACCES' || code === 'EPERM')
    return new FileTrouble(
      'permission',
      `“${name}” may not be read by you.`,
      'Change its permissions, or copy it to a folder of yours.',
      error,
    );
  if (code === 'EISDIR') return folder(name);
  return new FileTrouble(
    'damaged',
    `“${name}” could not be read from the disk (${code || 'unknown reason'}).`,
    'Try again, or copy it to another disk.',
    error,
  );
}
