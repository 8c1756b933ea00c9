// Run by docs.test.ts: runLines LINES.json RESULTS.json. Runs command lines one after the other in this one
// process, each in its own folder, by reading the built command anew; so that many lines cost one start.
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';

const [, , linesFile, resultsFile] = process.argv;
const MAIN = new URL('../dist/main.js', import.meta.url).href;
const results = [];
let heard = '';
process.setMaxListeners(0);
process.stdout.setMaxListeners(0);
for (const stream of [process.stdout, process.stderr])
  stream.write = (text, ...rest) => {
    heard += text;
    rest.findLast((it) => typeof it === 'function')?.();
    return true;
  };

for (const [number, { folder, words }] of JSON.parse(readFileSync(linesFile, 'utf8')).entries()) {
  process.chdir(folder);
  process.exitCode = undefined;
  heard = '';
  const args = words.flatMap(spread);
  process.argv.splice(2, process.argv.length, ...args);
  // A command that stands beside the painter goes on until Ctrl+C: it comes once something was said of the picture.
  const ending = setInterval(() => {
    if (heard.includes('Ctrl+C ends it.') && /^\d\d:\d\d:\d\d/m.test(heard)) process.emit('SIGINT');
  }, 100);
  await import(`${MAIN}?line=${number}`);
  clearInterval(ending);
  results.push({ code: process.exitCode ?? 0, heard });
}
writeFileSync(resultsFile, JSON.stringify(results));
process.exit(0);

/** What a shell makes of a star in a file's name; a word without one stays as it is. */
function spread(word) {
  if (!basename(word).includes('*')) return [word];
  const [before, after] = basename(word).split('*');
  return readdirSync(dirname(word))
    .filter((name) => name.startsWith(before) && name.endsWith(after))
    .sort()
    .map((name) => join(dirname(word), name));
}
