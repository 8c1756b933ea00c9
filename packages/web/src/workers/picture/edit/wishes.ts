import { breathe } from '@halflight/files';

/**
 * The newest wish wins: each call takes a number, and a call that finds a newer one gives up.
 *
 * @returns a function that begins a wish and gives its test: true while no newer one has come
 */
export function wishes(): () => () => boolean {
  let newest = 0;
  return () => {
    const mine = ++newest;
    return () => mine === newest;
  };
}

/** A worker may be deaf for so long, in milliseconds. */
const DEAF = 40;

/** Runs rows in portions of about 40 ms; false when the wish is no longer the newest. */
export async function inPortions(
  count: number,
  run: (from: number, to: number) => void,
  isNewest: () => boolean,
): Promise<boolean> {
  let rows = 4;
  for (let y = 0; y < count; ) {
    await breathe();
    if (!isNewest()) return false;
    const to = Math.min(count, y + rows);
    const start = performance.now();
    run(y, to);
    const took = Math.max(0.1, performance.now() - start);
    rows = Math.max(1, Math.min(512, Math.round((to - y) * Math.min(4, DEAF / took))));
    y = to;
  }
  return true;
}
