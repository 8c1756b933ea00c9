import { createReadStream, existsSync, readFileSync, statSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { extname, join, normalize } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The built app; another build is tested by naming its folder in HALFLIGHT_APP. */
export const DIST =
  process.env.HALFLIGHT_APP ?? fileURLToPath(new URL('../../packages/web/dist/', import.meta.url));

const TYPES: Record<string, string> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.json': 'application/json',
  '.webmanifest': 'application/manifest+json',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.wasm': 'application/wasm',
  '.woff2': 'font/woff2',
};

export interface Host {
  /** Address of the app, ending in "/". */
  readonly address: string;
  close(): Promise<void>;
}

export interface HostOptions {
  /** False: a plain static host that sets none of the app's headers. */
  readonly headers?: boolean;
  /** Folder on the host, e.g. "tools/halflight/". */
  readonly folder?: string;
  /** Pictures offered as the demo: file name to path on this machine. */
  readonly demo?: Readonly<Record<string, string>>;
}

/** Serves the built app as a static host does. */
export async function host({ headers = true, folder = '', demo = {} }: HostOptions = {}): Promise<Host> {
  const sent = headers
    ? (JSON.parse(readFileSync(join(DIST, 'headers.json'), 'utf8')) as Record<string, string>)
    : {};
  const list = Object.keys(demo).map((file, index) => ({ file, title: 'Ferry landing', version: index + 1 }));
  const server = createServer((request, response) => {
    const path = decodeURIComponent(new URL(request.url ?? '/', 'http://host').pathname).slice(1);
    for (const [name, value] of Object.entries(sent)) response.setHeader(name, value);
    const inside = path.startsWith(folder) ? path.slice(folder.length) || 'index.html' : null;
    if (inside === 'demo/index.json') {
      response.setHeader('Content-Type', 'application/json');
      return response.end(JSON.stringify(list));
    }
    const file =
      inside === null
        ? null
        : inside.startsWith('demo/')
          ? (demo[inside.slice('demo/'.length)] ?? null)
          : join(DIST, normalize(inside));
    if (file === null || !existsSync(file) || !statSync(file).isFile()) {
      response.statusCode = 404;
      return response.end();
    }
    response.setHeader('Content-Type', TYPES[extname(file)] ?? 'application/octet-stream');
    createReadStream(file).pipe(response);
  });
  await new Promise<void>((listening) => server.listen(0, '127.0.0.1', listening));
  const { port } = server.address() as AddressInfo;
  return {
    address: `http://127.0.0.1:${port}/${folder}`,
    close: () =>
      new Promise((closed) => {
        server.close(() => closed());
        server.closeAllConnections();
      }),
  };
}
