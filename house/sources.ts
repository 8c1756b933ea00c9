import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/** Top folder of the checkout, with a slash at the end. */
export const ROOT = fileURLToPath(new URL('../', import.meta.url));

/** Files of the checkout that git keeps or would keep, relative to its top. */
export function houseFiles(...patterns: string[]): string[] {
  const list = execFileSync(
    'git',
    ['ls-files', '--cached', '--others', '--exclude-standard', '--', ...patterns],
    {
      cwd: ROOT,
      encoding: 'utf8',
    },
  );
  const gone = execFileSync('git', ['ls-files', '--deleted'], { cwd: ROOT, encoding: 'utf8' }).split('\n');
  return list.split('\n').filter((file) => file && !gone.includes(file));
}

/** Text of a file, or null when it is no text. */
export function textOf(file: string): string | null {
  const bytes = readFileSync(ROOT + file);
  return bytes.includes(0) ? null : bytes.toString('utf8');
}
