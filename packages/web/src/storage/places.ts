import { currentVersion, type Work } from '../document/work.ts';
import type { Files } from './files.ts';

/** Where the store keeps what. */
export const folderOf = (id: string): string => `works/${id}`;
export const pictureOf = (hash: string): string => `pictures/${hash}`;

/** The small picture of a work's newest version, as the store has it. */
export async function thumbOf(files: Files, work: Work): Promise<Blob | null> {
  const { small } = currentVersion(work);
  const bytes = small === undefined ? null : await files.read(pictureOf(small));
  return bytes && new Blob([bytes], { type: 'image/webp' });
}
