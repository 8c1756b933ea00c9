import { describe, expect, test } from 'vitest';
import { trouble } from '../../src/trouble.ts';
import { type Library, libraryOnDemand } from '../../src/vips/library.ts';

/** A library that can do nothing but be started and shut down, and tells how often. */
function counted() {
  const told = { started: 0, shut: 0 };
  const library = libraryOnDemand(async () => {
    told.started++;
    const shutdown = (): void => void told.shut++;
    return { Cache: { max() {} }, concurrency() {}, blockUntrusted() {}, shutdown } as unknown as Library;
  });
  return { told, library };
}
const soon = () => new Promise((done) => setTimeout(done, 0));
const fails = (error: Error) => async (get: (avif: boolean) => Promise<Library>) => {
  await get(false);
  throw error;
};

describe('the library is started anew', () => {
  test.each([
    ['once its memory ran out', trouble.memory('ferry.png'), 1],
    ['after a hundred damaged pictures', trouble.damaged('ferry.png'), 100],
  ])('%s', async (_, error, times) => {
    const { told, library } = counted();
    for (let k = 1; k <= times; k++) {
      expect(told.shut).toBe(0);
      await expect(library.use(fails(error))).rejects.toBe(error);
      await soon();
    }
    expect(told).toEqual({ started: 1, shut: 1 });
    await library.use((get) => get(false));
    expect(told).toEqual({ started: 2, shut: 1 });
  });

  test('not while another picture is being read, and not while somebody keeps it', async () => {
    const { told, library } = counted();
    let finish = (): void => undefined;
    const other = library.use(async (get) => {
      await get(false);
      await new Promise<void>((done) => {
        finish = done;
      });
    });
    const error = trouble.memory('ferry.png');
    await expect(library.use(fails(error))).rejects.toBe(error);
    await soon();
    expect(told.shut).toBe(0);
    finish();
    await other;
    await soon();
    expect(told.shut).toBe(1);
    await library.lend();
    await expect(library.use(fails(error))).rejects.toBe(error);
    await soon();
    expect(told).toEqual({ started: 2, shut: 1 });
  });

  test('not for what is no fault of the file', async () => {
    const { told, library } = counted();
    for (let k = 0; k < 120; k++)
      await library.use(fails(trouble.tooLarge('ferry.png', 9, 9, 1))).catch(() => null);
    await soon();
    expect(told).toEqual({ started: 1, shut: 0 });
  });
});
