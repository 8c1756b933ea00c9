import { existsSync, readFileSync } from 'node:fs';
import { npm, ROOT, say } from './run.mjs';

/** Installs what the lock names, when it is not there yet. Gives npm's exit code. */
export async function install() {
  if (installed()) return 0;
  say('Installing libraries …');
  // In a checkout in use only the differences are installed; a fresh one takes exactly what the lock names.
  return npm([existsSync(`${ROOT}node_modules`) ? 'install' : 'ci', '--loglevel=error']);
}

/** True when every library that the lock names is there in its version. */
function installed() {
  const kept = `${ROOT}node_modules/.package-lock.json`;
  if (!existsSync(kept)) return false;
  const have = JSON.parse(readFileSync(kept, 'utf8')).packages;
  const want = JSON.parse(readFileSync(`${ROOT}package-lock.json`, 'utf8')).packages;
  return Object.entries(want).every(([place, { version, link, optional }]) => {
    if (!place.includes('node_modules/')) return true;
    if (!have[place]) return optional === true;
    return link === true || have[place].version === version;
  });
}
