import { beforeEach, expect, test, vi } from 'vitest';
import { Stopped } from '../../../src/picture/client.ts';
import type { LayerSource } from '../../../src/workers/layers/desk.ts';

/** A worker whose answers come when the test lets them; it is one after the other what it was asked to hold. */
const worker = vi.hoisted(() => ({
  asked: [] as string[],
  /** Reports of the reading that are still on their way. */
  late: [] as (() => void)[],
  slow: [] as (() => void)[],
  aborts: new Set<(error: Error) => void>(),
  end: (): void => undefined,
}));

vi.mock('../../../src/state/session.ts', () => ({
  get: () => ({ history: null }),
  say: () => undefined,
  trouble: (_: string, text: string) => worker.asked.push(`trouble: ${text}`),
  clearTroubles: () => undefined,
}));
vi.mock('../../../src/state/desks.ts', () => ({ keeper: {}, pictures: {} }));
vi.mock('../../../src/state/readings.ts', () => ({ refreshReadings: () => undefined }));
vi.mock('../../../src/state/thinout/client.ts', () => ({
  startLayersClient: (onEnd: () => void) => {
    worker.end = onEnd;
    const modes = (source: LayerSource): string =>
      source.kind === 'pictures' ? source.pictures.map(({ name, mode }) => `${name} ${mode}`).join(', ') : '';
    let held: LayerSource | null = null;
    const layers = [{ path: 'a', group: false, children: [] }];
    const desk = {
      open: async (source: LayerSource) => {
        held = source;
        worker.asked.push(`open ${modes(source)}`);
        return { layers };
      },
      read: async (each: (path: string) => void) => {
        worker.late.push(() => each('a'));
        return { facts: {}, bitmap: { close: () => undefined }, notes: [] };
      },
      arrange: async (source: LayerSource) => {
        held = source;
        worker.asked.push(`arrange ${modes(source)}`);
        return { layers };
      },
      look: async () => ({ of: modes(held!), close: () => undefined }),
      flatDifference: async () => null,
      weigh: () => new Promise((resolve) => worker.slow.push(() => resolve({ layers: [], reading: {} }))),
      plan: async () => null,
    };
    return {
      calm: async () => undefined,
      run: (job: (of: typeof desk) => Promise<unknown>) =>
        new Promise((resolve, reject) => {
          worker.aborts.add(reject);
          job(desk).then(resolve, reject);
        }),
      stop: () => {
        for (const abort of worker.aborts) abort(new Stopped());
        worker.aborts.clear();
      },
    };
  },
}));

const { arrange } = await import('../../../src/state/thinout/arranging.ts');
const { takeLayers } = await import('../../../src/state/thinout/opening.ts');
const { forget } = await import('../../../src/state/thinout/taking.ts');
const { weigh } = await import('../../../src/state/thinout/weighing.ts');
const { get } = await import('../../../src/state/thinout/store.ts');

const files = ['a.png', 'b.png'].map((name) => ({ name, file: new Blob([name]) }));
const multiply = () => {
  const pictures = get().arrangement!.pictures;
  return arrange({ pictures: pictures.map((one) => ({ ...one, mode: 'multiply' })) });
};

beforeEach(() => {
  forget();
  worker.asked.length = 0;
  worker.late.length = 0;
  worker.slow.length = 0;
});

test('pictures put in another order while a report is still on its way can be weighed', async () => {
  await takeLayers(files);
  await multiply();
  for (const report of worker.late) report();
  expect(get()).toMatchObject({ running: null, seen: null });
  expect(worker.asked).toEqual(['open a src-over, b src-over', 'arrange a multiply, b multiply']);
});

test('they can be put in another order while they are read; nothing is read twice', async () => {
  const taken = takeLayers(files);
  await multiply();
  await taken;
  expect(worker.asked.filter((it) => it.startsWith('open'))).toHaveLength(1);
  expect(get()).toMatchObject({ running: null, shown: { of: 'a multiply, b multiply' } });
  expect(get().picture).not.toBeNull();
});

test('several changes at once end at the last', async () => {
  await takeLayers(files);
  const reversed = [...get().arrangement!.pictures].reverse();
  await Promise.all([arrange({ pictures: reversed }), multiply(), arrange({ pictures: reversed })]);
  expect(get()).toMatchObject({ running: null, shown: { of: 'b src-over, a src-over' } });
});

test('what is weighed is let go when it is changed, and can be weighed again', async () => {
  await takeLayers(files);
  const weighing = weigh();
  await vi.waitFor(() => expect(get().running?.what).toBe('Weighing the layers'));
  await multiply();
  await weighing;
  for (const answer of worker.slow) answer();
  expect(get()).toMatchObject({ running: null, seen: null });
  const again = weigh();
  await vi.waitFor(() => expect(worker.slow).toHaveLength(2));
  worker.slow[1]();
  await again;
  expect(get().seen).not.toBeNull();
});

test('after the worker was ended the layers are read again before it is asked', async () => {
  await takeLayers(files);
  worker.end();
  await multiply();
  expect(worker.asked).toEqual(['open a src-over, b src-over', 'open a multiply, b multiply']);
  expect(get()).toMatchObject({ running: null, shown: { of: 'a multiply, b multiply' } });
});
