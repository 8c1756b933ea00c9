import { defineConfig } from 'vitest/config';

/** One run over every package's own tests; workspaces resolve to their sources, so no build is needed. */
export default defineConfig({
  resolve: { conditions: ['source'] },
  ssr: { resolve: { conditions: ['source'] } },
  test: {
    include: ['packages/*/test/**/*.test.ts', 'demo/test/**/*.test.ts', 'house/**/*.test.ts'],
    testTimeout: 30_000,
  },
});
