import { availableParallelism } from 'node:os';
import { defineConfig } from 'vitest/config';

/** One run over every package's own tests; workspaces resolve to their sources, so no build is needed. */
export default defineConfig({
  resolve: { conditions: ['source'] },
  ssr: { resolve: { conditions: ['source'] } },
  test: {
    // Many tests run whole commands; a busy machine must not fail them.
    testTimeout: 180_000,
    hookTimeout: 180_000,
    // Left to itself it keeps one core free, which is half of a small machine.
    maxWorkers: Math.max(2, availableParallelism() - 1),
    projects: [
      {
        extends: true,
        test: {
          name: 'house',
          // Pure modules without state: each is read once for all files of a worker.
          isolate: false,
          include: ['packages/*/test/**/*.test.ts', 'demo/test/**/*.test.ts', 'house/**/*.test.ts'],
          exclude: ['packages/cli/**', '**/node_modules/**'],
        },
      },
      {
        extends: true,
        test: {
          name: 'command line',
          include: ['packages/cli/test/**/*.test.ts'],
          // The command is run as people run it, so it must be built.
          globalSetup: ['packages/cli/test/build.ts'],
        },
      },
    ],
  },
});
