import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Plugin, PreviewServer, ViteDevServer } from 'vite';
import { HEADERS, META_POLICY } from '../src/headers.ts';

/**
 * What surrounds the app: the policy in the page, `headers.json` for servers, and the list of files that the
 * service worker keeps.
 */
export function shell(publicDir: string): Plugin {
  const serveHeaders = (server: ViteDevServer | PreviewServer): void => {
    server.middlewares.use((_request, response, next) => {
      for (const [name, value] of Object.entries(HEADERS)) {
        // The dev server's own scripts are inline; the policy is for what is built.
        if (name !== 'Content-Security-Policy' || !('moduleGraph' in server)) response.setHeader(name, value);
      }
      next();
    });
  };
  return {
    name: 'halflight-shell',
    enforce: 'post',
    configureServer: serveHeaders,
    configurePreviewServer: serveHeaders,
    transformIndexHtml: {
      order: 'post',
      handler: (_html, { server }) =>
        server
          ? []
          : [
              {
                tag: 'meta',
                attrs: { 'http-equiv': 'Content-Security-Policy', content: META_POLICY },
                injectTo: 'head-prepend',
              },
            ],
    },
    generateBundle(_options, bundle) {
      const headers = JSON.stringify(HEADERS, null, 2);
      this.emitFile({ type: 'asset', fileName: 'headers.json', source: headers });
      const hash = createHash('sha256');
      const files: string[] = [];
      for (const [name, file] of Object.entries(bundle)) {
        if (name === 'sw.js' || name.endsWith('.map')) continue;
        files.push(name);
        hash.update(name).update(file.type === 'chunk' ? file.code : file.source);
      }
      for (const name of filesIn(publicDir)) {
        files.push(name);
        hash.update(name).update(readFileSync(join(publicDir, name)));
      }
      const worker = bundle['sw.js'];
      if (worker?.type !== 'chunk') throw new Error('The service worker is missing from the build.');
      if (worker.imports.length > 0) throw new Error('The service worker must be one file.');
      const build = JSON.stringify({ hash: hash.digest('hex').slice(0, 16), files: files.sort() });
      const placeholder = /(["'`])__BUILD__\1/;
      if (!placeholder.test(worker.code))
        throw new Error('The service worker has no place for its list of files.');
      worker.code = worker.code.replace(placeholder, () => build);
    },
  };
}

function filesIn(folder: string): string[] {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name).slice(folder.length + 1));
}
