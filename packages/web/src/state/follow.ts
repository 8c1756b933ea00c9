import { rebuild } from '../document/history.ts';
import { CHANNEL, type News } from '../storage/keeper.ts';
import { keeper } from './desks.ts';
import { openWork, refreshShelf } from './open.ts';
import { refreshReadings } from './readings.ts';
import { get, say, set } from './session.ts';

/** Hears what other tabs do to the store, and follows. */
export function followOthers(): void {
  if (!('BroadcastChannel' in window)) return;
  const channel = new BroadcastChannel(CHANNEL);
  channel.onmessage = ({ data }: MessageEvent<News>) => void hear(data);
}

async function hear(news: News): Promise<void> {
  const { route, history, writable } = get();
  if (route.screen === 'shelf') {
    // Another tab may write many times a second.
    if (news.kind !== 'free' && waiting === null) waiting = setTimeout(lookAgain, SHELF_PAUSE);
    return;
  }
  if (news.kind === 'shelf' || history === null || writable || history.present.id !== news.id) return;
  if (get().glance !== null) return;
  if (news.kind === 'written') await reread(news.id);
  else await takeOver(news.id);
}

/** Shows the work as the other tab has written it. */
async function reread(id: string): Promise<void> {
  const kept = await keeper.look(id);
  const { history, writable } = get();
  if (kept === null || writable || history?.present.id !== id) return;
  const next = rebuild(kept.base, kept.done, kept.undone);
  const before = history.present.versions.at(-1)?.hash;
  if (next.present.versions.at(-1)?.hash !== before) {
    await openWork(id);
    return;
  }
  set({ history: next });
  await refreshReadings();
}

const SHELF_PAUSE = 300;
let waiting: ReturnType<typeof setTimeout> | null = null;

function lookAgain(): void {
  waiting = null;
  if (get().route.screen === 'shelf') void refreshShelf();
}

/** The right to write is given back a moment after it is told: so often, and so many milliseconds apart. */
const TRIES = 5;
const PAUSE = 100;

/** The other tab has put the work away: this one may write it now, unless a third one was quicker. */
async function takeOver(id: string): Promise<void> {
  let kept = await keeper.open(id);
  for (let attempt = 1; attempt < TRIES && kept?.writable === false; attempt++) {
    await new Promise((resolve) => setTimeout(resolve, PAUSE));
    if (get().history?.present.id !== id) return;
    kept = await keeper.open(id);
  }
  if (kept === null || get().history?.present.id !== id) return;
  set({ history: rebuild(kept.base, kept.done, kept.undone), writable: kept.writable });
  if (kept.writable) say('The other tab has put this work away: it can be changed here now.');
  await refreshReadings();
}
