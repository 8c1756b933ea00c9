/** Where one is: the shelf, the class, layers without a work, or a screen of a work. Written in the address after "#", so that any host and folder works. */
export type Route =
  | { readonly screen: 'shelf' }
  /** Where the artist's own finished works lie. */
  | { readonly screen: 'baseline' }
  /** `of` is the work of the class that is open; null for the class as a whole. */
  | { readonly screen: 'class'; readonly of: string | null }
  /** Layers that belong to no work of the shelf. */
  | { readonly screen: 'layers' }
  | WorkRoute;

/** A screen of a work. */
export interface WorkRoute {
  readonly screen: WorkScreen;
  readonly work: string;
}

/** The screens of a work; its notes come first and need no name in the address. */
export type WorkScreen = 'check' | 'intent' | 'rework' | 'standback' | 'progress' | 'thinout' | 'handover';

const NAMED: readonly WorkScreen[] = ['intent', 'rework', 'standback', 'progress', 'thinout', 'handover'];

export function parseRoute(hash: string): Route {
  const [, kind, work, screen] = hash.replace(/^#/, '').split('/');
  if (kind === 'baseline' || kind === 'layers') return { screen: kind };
  if (kind === 'class') return { screen: 'class', of: work ? decodeURIComponent(work) : null };
  if (kind !== 'work' || !work) return { screen: 'shelf' };
  return { screen: NAMED.find((name) => name === screen) ?? 'check', work: decodeURIComponent(work) };
}

export function routeHash(route: Route): string {
  if (route.screen === 'shelf') return '#/';
  if (route.screen === 'baseline' || route.screen === 'layers') return `#/${route.screen}`;
  if (route.screen === 'class')
    return route.of === null ? '#/class' : `#/class/${encodeURIComponent(route.of)}`;
  const work = `#/work/${encodeURIComponent(route.work)}`;
  return route.screen === 'check' ? work : `${work}/${route.screen}`;
}

export function isWorkRoute(route: Route): route is WorkRoute {
  return 'work' in route;
}

export function go(route: Route): void {
  location.hash = routeHash(route);
}
