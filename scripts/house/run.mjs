import { spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';

/** Top folder of the checkout. */
export const ROOT = fileURLToPath(new URL('../../', import.meta.url));

const NPM = process.platform === 'win32' ? 'npm.cmd' : 'npm';

/** Runs a program of this checkout with its output shown, and gives its exit code. */
export function run(program, args, options = {}) {
  return new Promise((resolve) => {
    const child = spawn(program, args, { cwd: ROOT, stdio: ['ignore', 'inherit', 'inherit'], ...options });
    child.once('error', (error) => {
      console.error(`${program} could not be started: ${error.message}`);
      resolve(127);
    });
    child.once('exit', (code, signal) => resolve(code ?? (signal ? 1 : 0)));
  });
}

/** Runs Node on a file of this checkout. */
export const node = (file, args = [], options = {}) => run(process.execPath, [file, ...args], options);

/** Runs npm. */
export const npm = (args, options = {}) =>
  run(NPM, args, { ...options, shell: process.platform === 'win32' });

/** Runs a tool that npm installed, e.g. "typescript/bin/tsc". */
export const tool = (file, args = [], options = {}) => node(`${ROOT}node_modules/${file}`, args, options);

/** A quiet line that says what is going on. */
export function say(text) {
  console.log(`\n${text}`);
}
