import { HEADERS } from '../headers.ts';

/** What TypeScript's page library leaves out of a service worker. */
interface ExtendableEvent extends Event {
  waitUntil(promise: Promise<unknown>): void;
}
interface FetchEvent extends ExtendableEvent {
  readonly request: Request;
  respondWith(response: Promise<Response>): void;
}
interface Scope {
  addEventListener(type: 'install' | 'activate', listener: (event: ExtendableEvent) => void): void;
  addEventListener(type: 'fetch', listener: (event: FetchEvent) => void): void;
  skipWaiting(): Promise<void>;
  readonly clients: { claim(): Promise<void> };
  readonly registration: { readonly scope: string };
}
const scope = globalThis as unknown as Scope;

/** Files of this build with a hash of them all; the build writes them in here. */
const BUILD = '__BUILD__' as unknown as { readonly hash: string; readonly files: readonly string[] };
const APP = `halflight-app-${BUILD.hash}`;
/** Demo pictures that were opened once. */
const DEMO = 'halflight-demo';

/** Where shared pictures wait, and the header with their names: `app/arriving.ts` knows them by the same words. */
const SHARED = 'halflight-shared';
const SHARED_NAME = 'X-Shared-Name';

scope.addEventListener('install', (event) => {
  event.waitUntil(
    caches
      .open(APP)
      .then((cache) =>
        cache.addAll(BUILD.files.map((file) => new Request(addressOf(file), { cache: 'no-cache' }))),
      )
      .then(() => scope.skipWaiting()),
  );
});

scope.addEventListener('activate', (event) => {
  event.waitUntil(
    caches
      .keys()
      .then((names) =>
        Promise.all(
          names
            .filter((name) => name.startsWith('halflight-app-') && name !== APP)
            .map((name) => caches.delete(name)),
        ),
      )
      .then(() => scope.clients.claim()),
  );
});

scope.addEventListener('fetch', (event) => {
  const { request } = event;
  if (request.method === 'POST' && request.url === addressOf('share')) {
    event.respondWith(receive(request));
    return;
  }
  if (request.method !== 'GET' || !request.url.startsWith(scope.registration.scope)) return;
  event.respondWith(answer(request).then(withHeaders));
});

/** Pictures that another program shares wait in a store of their own until the page takes them. */
async function receive(request: Request): Promise<Response> {
  const files = (await request.formData()).getAll('files').filter((it) => it instanceof File);
  const shared = await caches.open(SHARED);
  for (const file of files) {
    const headers = { 'Content-Type': file.type, [SHARED_NAME]: encodeURIComponent(file.name) };
    // Each under a name of its own: more may come before the page has taken the first ones.
    await shared.put(addressOf(`share/${crypto.randomUUID()}`), new Response(file, { headers }));
  }
  return Response.redirect(addressOf(''), 303);
}

/** The app's own files come from the store, demo pictures from the network first. */
async function answer(request: Request): Promise<Response> {
  const path = request.url.slice(scope.registration.scope.length).replace(/[?#].*$/, '');
  if (path.startsWith('demo/')) return fromNetworkFirst(request);
  const app = await caches.open(APP);
  const kept = await app.match(request.mode === 'navigate' ? addressOf('index.html') : request, {
    ignoreSearch: true,
  });
  return kept ?? fetch(request);
}

async function fromNetworkFirst(request: Request): Promise<Response> {
  const demo = await caches.open(DEMO);
  try {
    const fresh = await fetch(request);
    if (fresh.ok) await demo.put(request, fresh.clone());
    return fresh;
  } catch (error) {
    const kept = await demo.match(request);
    if (kept) return kept;
    throw error;
  }
}

/** The same response with our headers: shared memory and the policy also where the host sets none. */
function withHeaders(response: Response): Response {
  if (response.status === 0) return response;
  const headers = new Headers(response.headers);
  for (const [name, value] of Object.entries(HEADERS)) headers.set(name, value);
  const { status, statusText, body } = response;
  return new Response(body, { status, statusText, headers });
}

function addressOf(file: string): string {
  return new URL(file, scope.registration.scope).href;
}
