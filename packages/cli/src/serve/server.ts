import { createServer, type Server } from 'node:http';
import sirv, { type Options } from 'sirv';
import { demoPictures, describeDemo } from './places.ts';

/** Only this machine can reach it. */
const HOST = '127.0.0.1';

/**
 * Serves the built app, and the demo pictures under /demo/ with a list of them in /demo/index.json.
 *
 * @param headers response headers of every file, by name
 * @param port 0 lets the system choose
 * @throws the system's error when the port can't be taken
 */
export function serve(
  folder: string,
  headers: Readonly<Record<string, string>>,
  port: number,
): Promise<{ server: Server; address: string }> {
  const options: Options = {
    dev: true,
    setHeaders: (response) => {
      for (const [name, value] of Object.entries(headers)) response.setHeader(name, value);
    },
  };
  const app = sirv(folder, { ...options, single: true });
  const demo = demoPictures();
  const pictures = demo && sirv(demo.folder, options);
  const server = createServer((request, response) => {
    const path = new URL(request.url ?? '/', `http://${HOST}`).pathname;
    if (path === '/demo/index.json') {
      response.setHeader('content-type', 'application/json');
      response.end(JSON.stringify((demo?.files ?? []).map(describeDemo)));
    } else if (path.startsWith('/demo/') && pictures) {
      request.url = path.slice('/demo'.length);
      pictures(request, response);
    } else app(request, response);
  });
  return new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen(port, HOST, () => {
      const taken = server.address();
      const number = typeof taken === 'object' && taken ? taken.port : port;
      resolve({ server, address: `http://${HOST}:${number}/` });
    });
  });
}
