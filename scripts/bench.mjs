// `npm run bench [ROWS…]`: builds what is measured, then prints the table.
import { findBrowser } from './house/browser.mjs';
import { buildApp, buildPackages } from './house/build.mjs';
import { install } from './house/install.mjs';
import { node, ROOT } from './house/run.mjs';

for (const step of [install, buildPackages, buildApp]) if ((await step()) !== 0) process.exit(1);
const browser = await findBrowser();
const env = browser ? { ...process.env, CHROME_PATH: browser } : process.env;
process.exitCode = await node(`${ROOT}bench/dist/run.js`, process.argv.slice(2), { env });
