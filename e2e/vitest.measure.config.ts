import { defineConfig } from 'vitest/config';

/** Long measurements in a real browser, whose figures stand in docs: `npm run measure -w @halflight/e2e`. */
export default defineConfig({
  root: import.meta.dirname,
  resolve: { conditions: ['source'] },
  ssr: { resolve: { conditions: ['source'] } },
  test: {
    include: ['measure/**/*.measure.ts'],
    fileParallelism: false,
    disableConsoleIntercept: true,
    testTimeout: 3_600_000,
    hookTimeout: 300_000,
  },
});
