/** Where one is: the shelf, or a screen of a work. Written in the address after "#", so that any host and folder works. */
export type Route = { readonly screen: 'shelf' } | { readonly screen: WorkScreen; readonly work: string };

/** The screens of a work; its notes come first and need no name in the address. */
export type WorkScreen = 'check' | 'intent' | 'rework' | 'standback' | 'progress';

const NAMED: readonly WorkScreen[] = ['intent', 'rework', 'standback', 'progress'];

export function parseRoute(hash: string): Route {
  const [, kind, work, screen] = hash.replace(/^#/, '').split('/');
  if (kind !== 'work' || !work) return { screen: 'shelf' };
  return { screen: NAMED.find((name) => name === screen) ?? 'check', work: decodeURIComponent(work) };
}

export function routeHash(route: Route): string {
  if (route.screen === 'shelf') return '#/';
  const work = `#/work/${encodeURIComponent(route.work)}`;
  return route.screen === 'check' ? work : `${work}/${route.screen}`;
}

export function go(route: Route): void {
  location.hash = routeHash(route);
}
