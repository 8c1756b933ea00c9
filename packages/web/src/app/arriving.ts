import { openIncoming } from '../state/open.ts';

/** Where the service worker leaves what other programs share, and the header with its name. */
const SHARED = 'halflight-shared';
const SHARED_NAME = 'X-Shared-Name';

interface LaunchWindow {
  readonly launchQueue?: {
    setConsumer(take: (launch: { files: readonly FileSystemFileHandle[] }) => void): void;
  };
}

/** Takes in what the system hands over: files opened with the installed app, and pictures shared with it. */
export async function takeArriving(): Promise<void> {
  (window as LaunchWindow).launchQueue?.setConsumer(({ files }) => {
    if (files.length === 0) return;
    void Promise.all(files.map((handle) => handle.getFile())).then((all) =>
      openIncoming(all.map((file) => ({ file, name: file.name }))),
    );
  });
  if (!('caches' in window) || !(await caches.has(SHARED))) return;
  const cache = await caches.open(SHARED);
  const shared = await Promise.all(
    (await cache.keys()).map(async (request) => {
      const response = await cache.match(request);
      const name = decodeURIComponent(response?.headers.get(SHARED_NAME) ?? '');
      return { file: (await response?.blob()) ?? new Blob(), name: name || 'Shared picture' };
    }),
  );
  await caches.delete(SHARED);
  if (shared.length > 0) await openIncoming(shared);
}
