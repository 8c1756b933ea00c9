/** Mark of this tab that it was reloaded once for the headers, so that it never does so twice. */
const RELOADED = 'halflight.reloaded';

/**
 * Starts the service worker, which keeps the app for use without a network. On a host that sends no COOP and
 * COEP headers it adds them; the page reloads once for that, before anything is open.
 */
export function registerOffline(): void {
  if (!('serviceWorker' in navigator) || !import.meta.env.PROD) return;
  const register = async (): Promise<void> => {
    await navigator.serviceWorker.register(new URL('./sw.js', document.baseURI), { type: 'module' });
    if (crossOriginIsolated || sessionStorage.getItem(RELOADED)) return;
    await controlled();
    sessionStorage.setItem(RELOADED, '1');
    location.reload();
  };
  const soon = (): void => void register().catch(() => undefined);
  if (crossOriginIsolated && document.readyState !== 'complete')
    window.addEventListener('load', soon, { once: true });
  else soon();
}

function controlled(): Promise<void> {
  if (navigator.serviceWorker.controller) return Promise.resolve();
  return new Promise((resolve) =>
    navigator.serviceWorker.addEventListener('controllerchange', () => resolve(), { once: true }),
  );
}
