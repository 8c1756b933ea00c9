// `npm start`: from a fresh checkout to the app, with one reading of a demo picture on the way.
// `npm start -- --once` ends before serving; `--port N` serves there.
import { buildApp, buildPackages } from './house/build.mjs';
import { install } from './house/install.mjs';
import { paint } from './house/paint.mjs';
import { node, ROOT, say } from './house/run.mjs';

const CLI = `${ROOT}packages/cli/bin/halflight.js`;
const wishes = process.argv.slice(2);
const once = wishes.includes('--once');

await must('The libraries could not be installed. Is the network there? Run “npm start” again.', install);
await must('The build failed; the lines above say where.', buildPackages);
await must('The app could not be built; the lines above say why.', buildApp);
const folder = paint();
if (!folder) end('The demo pictures could not be painted; the lines above say why.');
const picture = `${folder}/ferry-landing-4.png`;
say(`halflight check ${picture.slice(ROOT.length)}\n`);
await must('The demo picture could not be read.', () => node(CLI, ['check', picture]));

if (!once) {
  say('');
  process.exitCode = await node(CLI, ['app', ...wishes], { stdio: 'inherit' });
}

/** Runs a step; when it fails, says so and ends. */
async function must(otherwise, step) {
  if ((await step()) !== 0) end(otherwise);
}

function end(sentence) {
  console.error(`\n${sentence}`);
  process.exit(1);
}
