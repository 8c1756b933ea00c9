import { defineConfig } from 'vitest/config';

/** The app as it was built, in a real browser: each file has its own, and two run side by side. */
export default defineConfig({
  root: import.meta.dirname,
  resolve: { conditions: ['source'] },
  ssr: { resolve: { conditions: ['source'] } },
  test: {
    include: ['tests/**/*.test.ts', 'second/**/*.test.ts'],
    maxWorkers: 2,
    testTimeout: 180_000,
    // A browser beside much other work is late now and then. What fails twice is a fault; a second try is told.
    retry: 1,
    hookTimeout: 180_000,
    expect: { poll: { timeout: 20_000 } },
  },
});
