import { once } from './once.mjs';
import { npm, say, tool } from './run.mjs';

const SHARED = ['package-lock.json', 'tsconfig.json', 'tsconfig.base.json'];

/** Checks the types and builds every package that runs in Node. */
export const buildPackages = () =>
  once(
    'packages',
    [...SHARED, 'packages', 'demo', 'bench'],
    ['packages/cli/dist/main.js', 'demo/dist/make.js'],
    () => {
      say('Building …');
      return tool('typescript/bin/tsc', ['-b']);
    },
  );

/** Builds the app. */
export const buildApp = () =>
  once(
    'app',
    [...SHARED, 'packages/web', 'packages/engine', 'packages/files', 'packages/pages'],
    ['packages/web/dist/index.html'],
    () => {
      say('Building the app …');
      return npm(['run', 'build', '-w', '@halflight/web', '--silent', '--', '--logLevel=error']);
    },
  );
