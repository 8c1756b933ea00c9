import { basename, extname } from 'node:path';

/**
 * Starts of the map files' names, all different: a picture's file name without its extension, with it where
 * two pictures of the run would collide, and with a number where that does not help either.
 */
export function mapNames(paths: readonly string[]): string[] {
  const files = paths.map((path) => basename(path));
  const stems = files.map((file) => basename(file, extname(file)));
  const stemCount = countOf(stems);
  const fileCount = countOf(files);
  return files.map((file, i) => {
    if (stemCount.get(stems[i].toLowerCase()) === 1) return stems[i];
    return fileCount.get(file.toLowerCase()) === 1 ? file : `${file}.${i + 1}`;
  });
}

// Some file systems take "A" and "a" for the same name.
function countOf(names: readonly string[]): Map<string, number> {
  const counts = new Map<string, number>();
  for (const name of names) counts.set(name.toLowerCase(), (counts.get(name.toLowerCase()) ?? 0) + 1);
  return counts;
}
