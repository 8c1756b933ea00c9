import { findDemo } from '../state/demo.ts';
import { pictures } from '../state/desks.ts';
import { followOthers } from '../state/follow.ts';
import { closeWork, openWork, refreshShelf } from '../state/open.ts';
import { clearTroubles, get, set } from '../state/session.ts';
import { takeArriving } from './arriving.ts';
import { isWorkRoute, parseRoute } from './route.ts';

/** Wakes the app: shelf, demo, and the work that the address names. */
export async function start(): Promise<void> {
  window.addEventListener('hashchange', () => void follow());
  followOthers();
  await Promise.all([refreshShelf(), findDemo(), follow()]);
  void takeArriving().catch(() => undefined);
  // The codec is large: it comes after the first paint, when nothing else is asked for.
  setTimeout(() => pictures.warm(), 300);
}

/** Brings the state to where the address says. */
async function follow(): Promise<void> {
  const route = parseRoute(location.hash);
  const moved = routeKey(get().route) !== routeKey(route);
  set({ route, pointedNote: null });
  if (moved) clearTroubles(['reading']);
  const { history, opening } = get();
  if (opening) return;
  if (!isWorkRoute(route)) {
    if (history) await closeWork();
    return refreshShelf();
  }
  if (history?.present.id !== route.work) await openWork(route.work);
}

const routeKey = (route: ReturnType<typeof parseRoute>): string => JSON.stringify(route);
