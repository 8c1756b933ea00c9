import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { VIPS_FOLDER } from '../../src/browser/folder.ts';
import { patchVips } from '../../src/vite/patchVips.ts';
import { vipsAssets, vipsFile } from '../../src/vite/vipsAssets.ts';

const folder = dirname(createRequire(import.meta.url).resolve('wasm-vips/vips.wasm'));
const stock = readFileSync(join(folder, 'vips-es6.js'), 'utf8');

describe('the library’s script without code generation', () => {
  test('stock builds functions from text, the patched one does not', () => {
    const generates = /\bnew Function\b|\beval\(|\bFunction\(/;
    expect(stock).toMatch(generates);
    expect(patchVips(stock)).not.toMatch(generates);
  });
  test('it starts four threads and lets no more be used, however many cores there are', () => {
    const [ready] = patchVips(stock).match(/for\(var a=(\w+);a--;\)de\(\)/) ?? [];
    expect(ready).toContain('a=4;');
    expect(patchVips(stock).includes('VIPS_MAX_THREADS=4;')).toBe(true);
    expect(patchVips(stock).includes('hardwareConcurrency>6')).toBe(false);
  });
  test('any other text fails the build', () => {
    expect(() => patchVips(stock.replace('fromRetWire', 'fromWire'))).not.toThrow(); // outside the patterns
    expect(() => patchVips(stock.replace('new Function', 'new  Function'))).toThrow(/renew the patch/);
    expect(() => patchVips(`${stock}\neval('1')`)).toThrow(/renew the patch/);
    expect(() => patchVips(patchVips(stock))).toThrow(/renew the patch/);
  });
  test('the AVIF module carries no JavaScript of its own', () => {
    const module = new WebAssembly.Module(readFileSync(join(folder, 'vips-heif.wasm')));
    const names = WebAssembly.Module.exports(module).map(({ name }) => name);
    expect(names.length).toBeGreaterThan(0);
    expect(names.filter((name) => /em_js|em_asm/.test(name))).toEqual([]);
  });
  test('the folder is named after the installed version', () => {
    const { version } = JSON.parse(readFileSync(join(folder, '..', 'package.json'), 'utf8'));
    expect(VIPS_FOLDER).toBe(`vips-${version}/`);
  });
});

test('the plugin emits script and modules into the folder', () => {
  const emitted: Record<string, string | Uint8Array> = {};
  vipsAssets().generateBundle.call({
    emitFile: ({ fileName, source }) => {
      emitted[fileName] = source;
      return fileName;
    },
  });
  expect(Object.keys(emitted)).toEqual(
    ['vips-es6.js', 'vips.wasm', 'vips-heif.wasm'].map((f) => VIPS_FOLDER + f),
  );
  expect(emitted[`${VIPS_FOLDER}vips-es6.js`]).toBe(vipsFile('vips-es6.js'));
});
