import { defineConfig } from 'vitest/config';

/** Makes the pictures of the documentation from the built app and the painted demo: `npm run pictures -w @halflight/e2e`. */
export default defineConfig({
  root: import.meta.dirname,
  test: {
    include: ['pictures/**/*.pictures.ts'],
    fileParallelism: false,
    testTimeout: 180_000,
    hookTimeout: 60_000,
  },
});
