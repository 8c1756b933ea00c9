/**
 * How to use it (packages/web/vite.config.ts):
 *
 *   import { vipsAssets } from '../files/src/vite/vipsAssets.ts';
 *   export default defineConfig({ plugins: [react(), vipsAssets()], … });
 *
 * and in the codec's worker:
 *
 *   import { openCodec, VIPS_FOLDER } from '@halflight/files/browser';
 *   const codec = await openCodec({ folder: new URL(VIPS_FOLDER, appBase) });
 *
 * where `appBase` is the address of the app's root (the folder of index.html), told to the worker by the page.
 * The plugin puts the library's script (patched, see patchVips.ts) and its WebAssembly unbundled into
 * `<base>/vips-0.0.19/`, and serves the same files during development. Nothing of wasm-vips passes through
 * the bundler: no `optimizeDeps`, `?url` or worker settings are needed for it. The page's policy can be
 * `script-src 'self' 'wasm-unsafe-eval'; worker-src 'self'`; the responses of the page, of the codec's worker
 * and of this folder need COOP `same-origin` and COEP `require-corp`, and `.wasm` the type application/wasm.
 * For offline use keep `vips-es6.js` and `vips.wasm`; `vips-heif.wasm` is fetched for the first AVIF only.
 */
import { readFileSync } from 'node:fs';
import type { IncomingMessage, ServerResponse } from 'node:http';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { VIPS_FOLDER } from '../browser/folder.ts';
import { patchVips } from './patchVips.ts';

const FILES: Record<string, string> = {
  'vips-es6.js': 'text/javascript',
  'vips.wasm': 'application/wasm',
  'vips-heif.wasm': 'application/wasm',
};

/** The part of Vite's plugin interface that is used here. */
interface AssetPlugin {
  name: string;
  configureServer(server: { middlewares: { use(handler: Handler): void } }): void;
  generateBundle(this: {
    emitFile(file: { type: 'asset'; fileName: string; source: string | Uint8Array }): string;
  }): void;
}
type Handler = (request: IncomingMessage, response: ServerResponse, next: () => void) => void;

/** Puts the imaging library beside the app; see the top of this file. */
export function vipsAssets(): AssetPlugin {
  return {
    name: 'halflight-vips-assets',
    configureServer(server) {
      server.middlewares.use((request, response, next) => {
        const path = new URL(request.url ?? '/', 'http://localhost').pathname;
        const [folder, file] = path.split('/').slice(-2);
        if (`${folder}/` !== VIPS_FOLDER || !(file in FILES)) return next();
        response.setHeader('Content-Type', FILES[file]);
        response.setHeader('Cross-Origin-Embedder-Policy', 'require-corp');
        response.setHeader('Cross-Origin-Resource-Policy', 'same-origin');
        response.end(vipsFile(file));
      });
    },
    generateBundle() {
      for (const file of Object.keys(FILES))
        this.emitFile({ type: 'asset', fileName: `${VIPS_FOLDER}${file}`, source: vipsFile(file) });
    },
  };
}

/** One file of the library as it is to be served. */
export function vipsFile(file: string): string | Uint8Array {
  const folder = dirname(createRequire(import.meta.url).resolve('wasm-vips/vips.wasm'));
  return file.endsWith('.js')
    ? patchVips(readFileSync(join(folder, file), 'utf8'))
    : readFileSync(join(folder, file));
}
