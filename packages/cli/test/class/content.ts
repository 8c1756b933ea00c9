import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

/** Every file below a folder with its bytes as text. */
export function contentOf(path: string): Record<string, string> {
  const files = readdirSync(path, { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile());
  return Object.fromEntries(
    files
      .map((entry) => join(entry.parentPath, entry.name))
      .sort()
      .map((file) => [file.slice(path.length), readFileSync(file).toString('base64')]),
  );
}
