import fc from 'fast-check';
import { expect, test } from 'vitest';
import { begin, type Entry, step } from '../../src/document/history.ts';
import { crc32 } from '../../src/storage/crc32.ts';
import { type Files, memoryFiles } from '../../src/storage/files.ts';
import { keepNew, missed, openKept, write } from '../../src/storage/kept.ts';
import { anyEntry, work } from '../samples.ts';

const rename = (title: string): Entry => ({ kind: 'do', command: { kind: 'rename', title } });

/** Files whose power fails after a number of bytes: what is being written then is torn. */
function failing(files: Files, budget: { bytes: number }): Files {
  const spend = (bytes: Uint8Array): Uint8Array => {
    const part = bytes.subarray(0, Math.max(0, budget.bytes));
    budget.bytes -= bytes.length;
    return part;
  };
  return {
    ...files,
    write: async (path, bytes) => {
      const part = spend(bytes);
      await files.write(path, part);
      if (part.length < bytes.length) throw new Error('power');
    },
    append: async (path, bytes) => {
      const part = spend(bytes);
      await files.append(path, part);
      if (part.length < bytes.length) throw new Error('power');
    },
  };
}

async function writeAll(files: Files, entries: readonly Entry[]) {
  let kept = await keepNew(files, 'w', work);
  for (const entry of entries) kept = await write(files, 'w', kept, entry);
  return kept;
}

test('CRC-32 of "123456789" is CBF43926 (check value of the polynomial, ISO 3309)', () => {
  expect(crc32(new TextEncoder().encode('123456789'))).toBe(0xcbf43926);
});

test('what is written is what is opened, with its undo list', async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(anyEntry, { maxLength: 30 }), async (entries) => {
      const files = memoryFiles();
      await writeAll(files, entries);
      const { history } = (await openKept(files, 'w')) ?? {};
      const expected = entries.reduce(step, begin(work));
      expect(history?.present).toEqual(expected.present);
      expect(history?.undone).toEqual(expected.undone);
    }),
    { numRuns: 60 },
  );
});

test('folding the journal into snapshots again and again loses nothing', async () => {
  const files = memoryFiles();
  const entries = Array.from({ length: 650 }, (_, index) => rename(`title ${index}`));
  const kept = await writeAll(files, entries);
  expect(kept.pending).toBeLessThan(200);
  const opened = await openKept(files, 'w');
  expect(opened?.history.present.title).toBe('title 649');
  expect(opened?.history.done).toHaveLength(650);
});

test('a crash at any byte loses at most what was being written', async () => {
  const entries = Array.from({ length: 420 }, (_, index) => rename(`title ${index}`));
  const whole = { bytes: Number.POSITIVE_INFINITY };
  let written = 0;
  const counting: Files = memoryFiles();
  const sizes: Files = {
    ...counting,
    write: (path, bytes) => {
      written += bytes.length;
      return counting.write(path, bytes);
    },
    append: (path, bytes) => {
      written += bytes.length;
      return counting.append(path, bytes);
    },
  };
  await writeAll(failing(sizes, whole), entries);

  await fc.assert(
    fc.asyncProperty(fc.integer({ min: 0, max: written - 1 }), async (bytes) => {
      const files = memoryFiles();
      const power = failing(files, { bytes });
      let kept = await keepNew(power, 'w', work).catch(() => null);
      let done = -1;
      try {
        for (let index = 0; kept && index < entries.length; index++) {
          kept = await write(power, 'w', kept, entries[index]);
          done = index;
        }
      } catch {
        // The power failed: what follows is the next start.
      }
      const opened = await openKept(files, 'w');
      if (done < 0 && opened === null) return;
      const found = Number(opened?.history.present.title.replace('title ', ''));
      if (done >= 0) expect([done, done + 1]).toContain(found);
      const next = opened && (await write(files, 'w', opened, rename('after')));
      expect(next?.history.present.title).toBe('after');
      expect((await openKept(files, 'w'))?.history.present.title).toBe('after');
    }),
    { numRuns: 150 },
  );
});

test.each([
  ['a', 'b'],
  ['b', 'a'],
])('a broken snapshot %s is replaced by the other', async (broken) => {
  const files = memoryFiles();
  await writeAll(
    files,
    Array.from({ length: 450 }, (_, index) => rename(`title ${index}`)),
  );
  const bytes = await files.read(`w/${broken}`);
  if (bytes) bytes[bytes.length >> 1] ^= 1;
  if (bytes) await files.write(`w/${broken}`, bytes);
  expect(await openKept(files, 'w')).not.toBeNull();
});

test('a folder without anything readable is none', async () => {
  const files = memoryFiles();
  expect(await openKept(files, 'w')).toBeNull();
  await files.write('w/a', new TextEncoder().encode('{"schema":"halflight/kept@1"}'));
  expect(await openKept(files, 'w')).toBeNull();
});

test('after a snapshot was lost with its journal left behind, what is written next is there again', async () => {
  const files = memoryFiles();
  const first = await keepNew(files, 'w', work);
  await write(files, 'w', first, rename('one'));
  // The journal goes on at a line that the snapshot which is left does not know.
  const [line] = new TextDecoder().decode((await files.read('w/journal'))!).split('\n');
  const later = line.slice(9).replace('1 ', '7 ');
  const sum = crc32(new TextEncoder().encode(later)).toString(16).padStart(8, '0');
  await files.write('w/journal', new TextEncoder().encode(`${sum} ${later}\n`));
  const kept = (await openKept(files, 'w'))!;
  await write(files, 'w', kept, rename('two'));
  expect((await openKept(files, 'w'))?.history.present.title).toBe('two');
});

test('a work whose folder was cleared while it was open is whole again with the next command', async () => {
  const files = memoryFiles();
  const kept = await write(files, 'w', await keepNew(files, 'w', work), rename('one'));
  await files.remove('w');
  await write(files, 'w', kept, { kind: 'undo' });
  const { history } = (await openKept(files, 'w'))!;
  expect(history.present.title).toBe(work.title);
  expect(history.undone).toHaveLength(1);
});

test('an entry that a full store refused, wholly or in part, is written with the next one', async () => {
  await fc.assert(
    fc.asyncProperty(
      fc.integer({ min: 0, max: 120 }),
      fc.integer({ min: 0, max: 8 }),
      async (bytes, before) => {
        const files = memoryFiles();
        let kept = await keepNew(files, 'w', work);
        for (let k = 0; k < before; k++) kept = await write(files, 'w', kept, rename(`title ${k}`));
        const refused = write(failing(files, { bytes }), 'w', kept, rename('refused'));
        await refused.then(
          (written) => {
            kept = written;
          },
          () => {
            kept = missed(kept, rename('refused'));
          },
        );
        kept = await write(files, 'w', kept, { kind: 'undo' });
        kept = await write(files, 'w', kept, { kind: 'redo' });
        const opened = await openKept(files, 'w');
        expect(opened?.history.present.title).toBe('refused');
        expect(opened?.history.done).toHaveLength(before + 1);
      },
    ),
    { numRuns: 100 },
  );
});

test('who only reads leaves alone what another tab is just writing', async () => {
  const files = memoryFiles();
  let kept = await keepNew(files, 'w', work);
  kept = await write(files, 'w', kept, rename('one'));
  const whole = (await files.read('w/journal'))!;
  await files.append('w/journal', whole.subarray(0, 20));
  const torn = await files.read('w/journal');
  expect((await openKept(files, 'w'))?.history.present.title).toBe('one');
  expect(await files.read('w/journal')).toEqual(torn);
  // The other tab comes to the end of its line, and goes on: nothing of it is lost.
  await files.write('w/journal', whole);
  await write(files, 'w', kept, rename('two'));
  expect((await openKept(files, 'w'))?.history.present.title).toBe('two');
  // Who may write mends it, so that what follows does not stand behind a torn line.
  await files.append('w/journal', whole.subarray(0, 20));
  const mended = (await openKept(files, 'w', true))!;
  await write(files, 'w', mended, rename('three'));
  expect((await openKept(files, 'w'))?.history.present.title).toBe('three');
});
