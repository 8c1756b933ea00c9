#!/usr/bin/env node
// Stands outside dist/, so that the command can be linked before the first build.
import { existsSync } from 'node:fs';

const main = new URL('../dist/main.js', import.meta.url);
if (existsSync(main)) await import(main.href);
else {
  console.error('Halflight is not built yet. Run “npm start” in its folder once.');
  process.exitCode = 1;
}
