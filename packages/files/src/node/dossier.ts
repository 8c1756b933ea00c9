import { createHash } from 'node:crypto';
import type { Stats } from 'node:fs';
import { type FileHandle, open, stat } from 'node:fs/promises';
import { basename } from 'node:path';
import type { Hasher } from '../dossier/hash.ts';
import { type Dossier, openDossier } from '../dossier/open.ts';
import type { Source } from '../dossier/source.ts';
import { type DossierDraft, writeDossier } from '../dossier/write.ts';
import { FileTrouble } from '../trouble.ts';
import { pathTrouble } from './read.ts';
import { replaceAtomically, writeAll } from './write.ts';

/** SHA-256 by Node's own library. */
function nodeHasher(): Hasher {
  const state = createHash('sha256');
  return { update: (bytes) => state.update(bytes), end: () => state.digest('hex') };
}

/** A dossier on the disk, open for reading until `close`. */
export interface DossierFile extends Dossier {
  readonly path: string;
  /** Tells this content of the path from another. */
  readonly stamp: string;
  close(): Promise<void>;
}

/**
 * Opens a dossier on the disk.
 *
 * @throws FileTrouble for what is wrong with the path or with the dossier
 */
export async function openDossierFile(path: string): Promise<DossierFile> {
  const name = basename(path);
  let file: FileHandle;
  try {
    file = await open(path, 'r');
  } catch (error) {
    throw pathTrouble(error, path, name);
  }
  try {
    const facts = await file.stat();
    if (!facts.isFile())
      throw new FileTrouble('folder', `“${path}” is a folder.`, 'Choose a .halflight file.');
    const dossier = await openDossier(fileSource(file, name, facts.size), { hasher: nodeHasher });
    return { ...dossier, path, stamp: stamp(facts), close: () => file.close() };
  } catch (error) {
    await file.close();
    throw error;
  }
}

function fileSource(file: FileHandle, name: string, size: number): Source {
  return {
    name,
    size,
    async read(at, length) {
      const buffer = new Uint8Array(Math.max(0, Math.min(length, size - at)));
      const { bytesRead } = await file.read(buffer, 0, buffer.length, at);
      return buffer.subarray(0, bytesRead);
    },
  };
}

/**
 * Writes a dossier so that its name only ever shows the old or the new one, whole. An older dossier that was
 * changed by somebody else since it was opened is left alone.
 *
 * @throws FileTrouble; the file of that name is then as it was
 */
export async function saveDossierFile(
  path: string,
  draft: Omit<DossierDraft, 'older'> & { readonly older?: DossierFile },
  onProgress?: (share: number) => void,
): Promise<void> {
  const before = draft.older?.stamp ?? null;
  if (before === null && (await stampOf(path)) !== null)
    throw new FileTrouble(
      'option',
      `“${path}” is there already.`,
      'Name another file, or add a version to it: nothing is overwritten.',
    );
  const fill = async (file: FileHandle): Promise<void> => {
    const sink = new WritableStream<Uint8Array>({ write: (chunk) => writeAll(file, chunk) });
    await writeDossier(sink, draft, onProgress);
  };
  await replaceAtomically(path, fill, async () => {
    if ((await stampOf(path)) === before) return;
    throw new FileTrouble(
      'write',
      `“${path}” was changed by another program meanwhile.`,
      'It was left as it is now; do it again.',
    );
  });
}

/** The stamp of what lies at a path now, null when nothing does. */
async function stampOf(path: string): Promise<string | null> {
  const facts = await stat(path).catch(() => null);
  return facts && stamp(facts);
}

function stamp({ ino, size, mtimeMs }: Stats): string {
  return `${ino} ${size} ${mtimeMs}`;
}
