import { existsSync, readdirSync, statSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/** The painted demo pictures by their names, from the newest painting that is complete; empty before the first. */
export function demoPictures(): Record<string, string> {
  const cache = fileURLToPath(new URL('../../.cache/demo/', import.meta.url));
  if (!existsSync(cache)) return {};
  const complete = readdirSync(cache)
    .filter((name) => name.endsWith('-2400x1500'))
    .map((name) => `${cache}${name}`)
    .sort((a, b) => statSync(b).mtimeMs - statSync(a).mtimeMs)
    .map((folder) => NAMES.map((name) => [name, `${folder}/${name}`]))
    .find((files) => files.every(([, path]) => existsSync(path)));
  return Object.fromEntries(complete ?? []);
}

const NAMES = [1, 2, 3, 4, 5].map((version) => `ferry-landing-${version}.png`);
