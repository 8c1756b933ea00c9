import { defineConfig } from 'vitest/config';

/** The app as it was built, in a real browser. Files run one after the other: the machine has one screen. */
export default defineConfig({
  root: import.meta.dirname,
  resolve: { conditions: ['source'] },
  ssr: { resolve: { conditions: ['source'] } },
  test: {
    include: ['tests/**/*.test.ts'],
    fileParallelism: false,
    testTimeout: 180_000,
    hookTimeout: 180_000,
    expect: { poll: { timeout: 20_000 } },
  },
});
