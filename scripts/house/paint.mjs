import { execFileSync } from 'node:child_process';
import { ROOT, say } from './run.mjs';

/** Paints the demo pictures where they are missing, and gives their folder; null when that failed. */
export function paint() {
  say('Demo pictures (painted once, a minute or two) …');
  try {
    return execFileSync(process.execPath, [`${ROOT}demo/dist/make.js`], {
      encoding: 'utf8',
      stdio: ['ignore', 'pipe', 'inherit'],
    }).trim();
  } catch {
    return null;
  }
}
