import { rename, rm, writeFile } from 'node:fs/promises';

/** Path of a version's picture in a folder. */
export const pictureName = (version: number) => `ferry-landing-${version}.png`;

/** Writes a file under another name first, so that a broken-off run leaves nothing half done. */
export async function writeWhole(path: string, data: Uint8Array | string): Promise<void> {
  const part = `${path}.${process.pid}.part`;
  try {
    await writeFile(part, data);
    await rename(part, path);
  } catch (error) {
    await rm(part, { force: true });
    throw error;
  }
}
