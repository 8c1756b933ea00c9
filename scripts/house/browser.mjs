import { accessSync, constants, existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { run, say } from './run.mjs';

const NAMES = ['chromium', 'chromium-browser', 'google-chrome-stable', 'google-chrome', 'chrome'];
const PLACES = [
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
];

/** Path of a Chromium or Chrome, or null: one that is there, else Debian's where apt may be used. */
export async function findBrowser() {
  return present() ?? (await byApt());
}

function present() {
  const named = process.env.CHROME_PATH;
  if (named && runnable(named)) return named;
  const folders = (process.env.PATH ?? '').split(delimiter);
  const candidates = NAMES.flatMap((name) => folders.map((folder) => join(folder, name)));
  return [...candidates, ...PLACES].find(runnable) ?? null;
}

function runnable(file) {
  try {
    accessSync(file, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}

async function byApt() {
  const mayInstall = process.getuid?.() === 0 && existsSync('/usr/bin/apt-get');
  if (!mayInstall) return null;
  say('Installing Chromium …');
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  const quiet = { env, stdio: ['ignore', 'ignore', 'inherit'] };
  await run('apt-get', ['update', '-qq'], quiet);
  await run('apt-get', ['install', '-y', '-qq', '--no-install-recommends', 'chromium'], quiet);
  return present();
}

export const NO_BROWSER =
  'The browser tests need Chromium or Chrome: install one (on Debian: apt-get install chromium), or name it in CHROME_PATH.';
