import { openIncoming } from './open.ts';
import { type DemoPicture, set, trouble } from './session.ts';

/** Where demo files are kept for use without a network: the service worker knows it by the same name. */
const KEPT = 'halflight-demo';

/** One of the pictures painted for the demo, as served beside the app. */
export async function openDemo(picture: DemoPicture): Promise<void> {
  try {
    const response = await fetchDemo(`./demo/${picture.file}`);
    if (!response.ok) throw new Error();
    const file = await response.blob();
    await openIncoming([{ file, name: picture.file, title: picture.title, version: picture.version }]);
  } catch {
    trouble(
      'opening',
      'The demo picture could not be fetched. Without a network it is there once it was opened.',
    );
  }
}

/** Which demo pictures are served, if any. */
export async function findDemo(): Promise<void> {
  try {
    const response = await fetchDemo('./demo/index.json');
    const list = response.ok ? ((await response.json()) as DemoPicture[]) : [];
    set({ demo: list.filter(({ file }) => typeof file === 'string' && /^[\w.-]+$/.test(file)) });
  } catch {
    set({ demo: [] });
  }
}

/** What is fetched before the service worker has taken over is kept here, as it would be by that. */
async function fetchDemo(address: string): Promise<Response> {
  const response = await fetch(address);
  if (response.ok && 'caches' in window && !navigator.serviceWorker?.controller) {
    const copy = response.clone();
    // Without room for it the demo opens all the same.
    await caches
      .open(KEPT)
      .then((kept) => kept.put(address, copy))
      .catch(() => undefined);
  }
  return response;
}
