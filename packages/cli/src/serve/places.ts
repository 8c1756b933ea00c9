import { existsSync, readdirSync, statSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/** Folder of the built app: beside the command when it was packed, in the checkout otherwise; null when not built. */
export function appFolder(): string | null {
  const places = ['../../app/', '../../../web/dist/'].map((place) => new URL(place, import.meta.url));
  const built = places.find((place) => existsSync(new URL('index.html', place)));
  return built ? fileURLToPath(built) : null;
}

/** The painted demo pictures, newest painting; null when none was painted. */
export function demoPictures(): { folder: string; files: string[] } | null {
  const cache = fileURLToPath(new URL('../../../../.cache/demo/', import.meta.url));
  if (!existsSync(cache)) return null;
  const paintings = readdirSync(cache, { withFileTypes: true })
    .filter((entry) => entry.isDirectory() && entry.name.endsWith(SIZE))
    .map((entry) => `${cache}${entry.name}`)
    .map((folder) => ({
      folder,
      files: readdirSync(folder)
        .filter((file) => VERSION.test(file))
        .sort(),
    }))
    .filter(({ files }) => files.length > 0)
    .sort((a, b) => statSync(b.folder).mtimeMs - statSync(a.folder).mtimeMs);
  return paintings[0] ?? null;
}

// Other sizes are painted for the bench and for tests.
const SIZE = '-2400x1500';
const VERSION = /^(.+)-(\d+)\.png$/;

/** How the app lists a demo picture: "ferry-landing-4.png" is "Ferry landing", version 4. */
export function describeDemo(file: string): { file: string; title: string; version: number } {
  const [, name, version] = VERSION.exec(file)!;
  const words = name.replaceAll('-', ' ');
  return { file, title: words.charAt(0).toUpperCase() + words.slice(1), version: Number(version) };
}
