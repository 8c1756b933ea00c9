import { cpus, loadavg } from 'node:os';
import { test } from 'vitest';
import { house } from '../house/app.ts';
import { folder, motley } from '../house/pictures.ts';
import { openPicture } from '../house/steps.ts';

/** Acts that are timed. */
const ACTS = Number(process.env.HALFLIGHT_ACTS ?? 40);
const files = folder();
const app = house();

/** Notes, in the page, when a write of the journal is asked of the store's worker and when it is answered. */
function listen(): void {
  const asked = new Map<string, number>();
  const told: { posted: number; kept: number }[] = [];
  Object.assign(window, { acts: told });
  const post = Worker.prototype.postMessage;
  const heard = new WeakSet<Worker>();
  Worker.prototype.postMessage = function (this: Worker, message: unknown, ...rest: never[]) {
    const { id, path } = (message ?? {}) as { id?: string; path?: string[] };
    if (id !== undefined && path?.at(-1) === 'write' && path.length === 1) {
      asked.set(id, performance.now());
      if (!heard.has(this))
        this.addEventListener('message', ({ data }) => {
          const posted = asked.get(data?.id);
          if (posted === undefined) return;
          asked.delete(data.id);
          told.push({ posted, kept: performance.now() });
        });
      heard.add(this);
    }
    return post.call(this, message, ...rest);
  } as typeof post;
}

const spread = (values: number[]): string => {
  const sorted = values.toSorted((a, b) => a - b);
  const at = (share: number) =>
    sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))].toFixed(1);
  return `median ${at(0.5)}, 90 of 100 ${at(0.9)}, longest ${at(1)} ms`;
};

test('from the press of an act to its line on the disk', async () => {
  const { page } = await app.open();
  await page.addInitScript(listen);
  await page.reload();
  await openPicture(page, await files.picture('ferry.png', motley));
  const toShown: number[] = [];
  const toPosted: number[] = [];
  const toKept: number[] = [];
  for (let k = 0; k < ACTS; k++) {
    const state = ['editing', 'painting'][k % 2];
    const act = await page.getByLabel('State of this work').evaluate(async (it, state) => {
      const field = it as HTMLSelectElement;
      const { acts } = window as unknown as { acts: { posted: number; kept: number }[] };
      const count = acts.length;
      const began = performance.now();
      field.value = state;
      field.dispatchEvent(new Event('change', { bubbles: true }));
      await new Promise<void>((done) => requestAnimationFrame(() => setTimeout(done)));
      const shown = performance.now() - began;
      const end = began + 30_000;
      while (acts.length === count && performance.now() < end)
        await new Promise((done) => setTimeout(done, 1));
      const { posted, kept } = acts[count];
      return { shown, posted: posted - began, kept: kept - began };
    }, state);
    toShown.push(act.shown);
    toPosted.push(act.posted);
    toKept.push(act.kept);
  }
  console.log(`load ${loadavg()[0].toFixed(1)} on ${cpus().length}, ${ACTS} acts`);
  console.log(`to the frame that shows it: ${spread(toShown)}`);
  console.log(`to the order to write it: ${spread(toPosted)}`);
  console.log(`until it is on the disk and told: ${spread(toKept)}`);
});
