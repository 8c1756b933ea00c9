import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { ROOT } from './run.mjs';

const STAMPS = `${ROOT}.cache/stamps`;
const LEFT_OUT = new Set(['node_modules', 'dist', '.cache', 'test']);

/**
 * Runs a step only when something that it reads has changed since it last went well.
 *
 * @param name of the step
 * @param inputs files and folders, from the top of the checkout
 * @param outputs files that must be there
 * @param step gives an exit code
 */
export async function once(name, inputs, outputs, step) {
  const stamp = `${STAMPS}/${name}`;
  const hash = hashOf(inputs);
  const made = outputs.every((file) => existsSync(ROOT + file));
  if (made && existsSync(stamp) && readFileSync(stamp, 'utf8') === hash) return 0;
  const code = await step();
  if (code === 0) {
    mkdirSync(STAMPS, { recursive: true });
    writeFileSync(stamp, hash);
  }
  return code;
}

function hashOf(inputs) {
  const hash = createHash('sha256');
  for (const file of inputs.flatMap((input) => filesUnder(input)).sort()) {
    hash.update(`${file}\0`);
    hash.update(readFileSync(ROOT + file));
  }
  return hash.digest('hex');
}

function filesUnder(path) {
  if (!existsSync(ROOT + path)) return [];
  if (statSync(ROOT + path).isFile()) return path.endsWith('.tsbuildinfo') ? [] : [path];
  return readdirSync(ROOT + path)
    .filter((name) => !LEFT_OUT.has(name))
    .flatMap((name) => filesUnder(join(path, name)));
}
