/** Where one is: the shelf, or a screen of a work. Written in the address after "#", so that any host and folder works. */
export type Route =
  | { readonly screen: 'shelf' }
  | { readonly screen: 'check' | 'intent'; readonly work: string };

export function parseRoute(hash: string): Route {
  const [, kind, work, screen] = hash.replace(/^#/, '').split('/');
  if (kind !== 'work' || !work) return { screen: 'shelf' };
  return { screen: screen === 'intent' ? 'intent' : 'check', work: decodeURIComponent(work) };
}

export function routeHash(route: Route): string {
  if (route.screen === 'shelf') return '#/';
  const work = `#/work/${encodeURIComponent(route.work)}`;
  return route.screen === 'intent' ? `${work}/intent` : work;
}

export function go(route: Route): void {
  location.hash = routeHash(route);
}
