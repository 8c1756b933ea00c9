import { randomBytes } from 'node:crypto';
import { type FileHandle, open, rename, rm, stat } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { FileTrouble } from '../trouble.ts';

/**
 * Writes a file so that its name only ever shows the old or the new content, whole: into a new file in the
 * same folder, flushed to the disk, then renamed over it. Permissions of an existing file are kept. Rejects
 * with `FileTrouble`; the old content is then untouched.
 */
export async function writeAtomically(path: string, bytes: Uint8Array): Promise<void> {
  await replaceAtomically(path, (file) => file.writeFile(bytes));
}

/** The same for content that comes in pieces. */
export async function streamAtomically(path: string, content: ReadableStream<Uint8Array>): Promise<void> {
  await replaceAtomically(path, async (file) => {
    for await (const chunk of content) await writeAll(file, chunk);
  });
}

/** Writes all of a piece: the system may take only a part of it at a time. */
export async function writeAll(file: FileHandle, bytes: Uint8Array): Promise<void> {
  for (let at = 0; at < bytes.length; ) at += (await file.write(bytes, at)).bytesWritten;
}

/**
 * The same for content that is made while it is written.
 *
 * @param fill writes the whole content; what it throws comes through, and nothing is changed
 * @param ready asked last, before the new content takes the name
 */
export async function replaceAtomically(
  path: string,
  fill: (file: FileHandle) => Promise<void>,
  ready: () => Promise<void> = async () => {},
): Promise<void> {
  const draft = join(dirname(path), `.${basename(path)}.${randomBytes(6).toString('hex')}.part`);
  try {
    const old = await stat(path).catch(() => null);
    if (old?.isDirectory()) throw new FileTrouble('folder', `“${path}” is a folder.`, 'Choose a file name.');
    const file = await open(draft, 'wx', old ? old.mode & 0o777 : 0o666);
    try {
      await fill(file);
      await file.sync();
    } finally {
      await file.close();
    }
    await ready();
    await rename(draft, path);
    await syncFolder(dirname(path));
  } catch (error) {
    await rm(draft, { force: true }).catch(() => {});
    throw error instanceof FileTrouble ? error : writeTrouble(error, path);
  }
}

/** Makes the new name itself durable; file systems that can't do that for folders are left alone. */
async function syncFolder(path: string): Promise<void> {
  const folder = await open(path, 'r').catch(() => null);
  try {
    await folder?.sync();
  } catch {
    // the content is safe already; only the name may be lost with the power
  } finally {
    await folder?.close();
  }
}

const REASONS: Record<string, readonly [string, string]> = {
  ENOENT: ['its folder does not exist', 'Make the folder first, or choose another.'],
  ENOTDIR: ['its folder does not exist', 'Make the folder first, or choose another.'],
  EACCES: ['you may not write there', 'Choose a folder of yours.'],
  EPERM: ['you may not write there', 'Choose a folder of yours.'],
  EROFS: ['the disk can only be read', 'Choose another disk.'],
  ENOSPC: ['the disk is full', 'Make room, or choose another disk.'],
  EDQUOT: ['your share of the disk is full', 'Make room, or choose another disk.'],
  ENAMETOOLONG: ['the name is too long', 'Choose a shorter name.'],
};

function writeTrouble(error: unknown, path: string): FileTrouble {
  const code = (error as NodeJS.ErrnoException).code ?? '';
  const [why, todo] = REASONS[code] ?? [
    `the disk reports ${code || 'an unknown fault'}`,
    'Try another place.',
  ];
  return new FileTrouble('write', `“${path}” could not be written: ${why}.`, todo, error);
}
