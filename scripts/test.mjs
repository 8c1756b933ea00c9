// `npm test`: everything that must hold, from a fresh checkout; ends with "N passed, N failed".
import { existsSync } from 'node:fs';
import { findBrowser, NO_BROWSER } from './house/browser.mjs';
import { buildApp, buildPackages } from './house/build.mjs';
import { install } from './house/install.mjs';
import { paint } from './house/paint.mjs';
import { ROOT, say, tool } from './house/run.mjs';
import { openTally, vitest } from './house/tally.mjs';

const BROWSER_TESTS = 'e2e/vitest.config.ts';

const tally = openTally();
const installed = await install();
tally.check('installation', installed);
if (installed === 0) await checks();
process.exitCode = tally.end() ? 0 : 1;

async function checks() {
  const types = await buildPackages();
  tally.check('types and build', types);
  say('Looking through the sources …');
  tally.check('types of the tests', await tool('typescript/bin/tsc', ['-p', 'tsconfig.tests.json']));
  tally.check('lint', await tool('@biomejs/biome/bin/biome', ['check', '.']));
  tally.check('unused code', await tool('knip/bin/knip.js', ['--no-progress']));
  if (types !== 0) return;
  tally.check('demo pictures', paint() ? 0 : 1);
  tally.tests('tests', await vitest('tests', []));
  await browserTests();
}

async function browserTests() {
  if (!existsSync(ROOT + BROWSER_TESTS)) return;
  const app = await buildApp();
  tally.check('app', app);
  const browser = await findBrowser();
  if (!browser) console.log(`\n${NO_BROWSER}`);
  if (app !== 0 || !browser) return tally.check('browser tests', 1);
  say('Browser tests …');
  tally.tests(
    'browser tests',
    await vitest('browser', ['--config', BROWSER_TESTS], { CHROME_PATH: browser }),
  );
}
