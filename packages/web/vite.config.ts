import { fileURLToPath } from 'node:url';
import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';
import { vipsAssets } from '../files/src/vite/vipsAssets.ts';
import { shell } from './vite/shell.ts';

const here = (path: string): string => fileURLToPath(new URL(path, import.meta.url));

/** Addresses are relative, so that the built app runs in any folder of any static host. */
export default defineConfig({
  root: here('.'),
  base: './',
  plugins: [react(), vipsAssets(), shell(here('./public'))],
  resolve: { conditions: ['source', 'module', 'browser', 'development|production'] },
  worker: {
    format: 'es',
    rolldownOptions: {
      output: { codeSplitting: { groups: [{ name: 'picture', test: /workers\/picture\/main\.ts$/ }] } },
    },
  },
  build: {
    outDir: here('./dist'),
    target: 'es2022',
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    rolldownOptions: {
      input: { index: here('./index.html'), sw: here('./src/offline/service-worker.ts') },
      output: { entryFileNames: ({ name }) => (name === 'sw' ? 'sw.js' : 'assets/[name]-[hash].js') },
    },
  },
});
