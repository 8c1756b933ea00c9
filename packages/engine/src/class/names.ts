/** Whose work a file is, as far as its name tells: "Ana Brook - Dusk.png" is Ana Brook's "Dusk". */
export function namesInFile(file: string): { readonly who: string; readonly title: string } {
  const stem = file
    .replace(/\.[A-Za-z0-9]{1,5}$/, '')
    .replaceAll('_', ' ')
    .trim();
  const [, who, title] = /^(.+?)\s+[-–—]\s+(.+)$/.exec(stem) ?? [];
  return who ? { who: who.trim(), title: title.trim() } : { who: stem || file, title: '' };
}

/** Order of works: by the name of their file, numbers by their worth; the same on every machine. */
export function byFileName(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
