import { describe, expect, test } from 'vitest';
import { bytesSource, openDossier } from '../../src/dossier/index.ts';
import { draft, first, noise, packed, readings, sha256, thing, version, work } from './samples.ts';

const open = async (bytes: Uint8Array) => openDossier(bytesSource(bytes, 'ferry.halflight'));

describe('a dossier', () => {
  test('gives back what was put in, byte for byte', async () => {
    const dossier = await open(await packed());
    expect(dossier.work).toEqual(work);
    expect(await dossier.bytes(sha256(first))).toEqual(first);
    expect(await dossier.bytes(sha256(readings))).toEqual(readings);
    expect(await dossier.verify()).toEqual([]);
  });

  test('is the same file for the same work', async () => {
    expect(sha256(await packed())).toBe(sha256(await packed()));
  });

  test('stores the same picture once, however many versions show it', async () => {
    const twice = { ...work, versions: [...work.versions, version(first, { number: 2 })] };
    const bytes = await packed({ ...draft, work: twice, things: [...draft.things, thing(first)] });
    const dossier = await open(bytes);
    expect(dossier.manifest.files.length).toBe(2);
    expect(bytes.length).toBeLessThan(first.length + 4000);
  });

  test('continues an older one: its files stay, new ones come', async () => {
    const older = await open(await packed());
    const second = noise(7000, 2);
    const next = { ...work, versions: [...work.versions, version(second, { number: 2 })] };
    const dossier = await open(await packed({ ...draft, older, work: next, things: [thing(second)] }));
    expect(await dossier.verify()).toEqual([]);
    expect(await dossier.bytes(sha256(first))).toEqual(first);
    expect(await dossier.bytes(sha256(second))).toEqual(second);
    expect(dossier.work.versions.length).toBe(2);
  });

  test('keeps files and fields of a newer program', async () => {
    const sketch = thing(noise(900, 3), 'application/x-sketch');
    const newer = { ...work, sketches: [sketch.hash], versions: [{ ...work.versions[0], mood: 'calm' }] };
    const older = await open(await packed({ ...draft, work: newer, things: [...draft.things, sketch] }));
    const again = await open(
      await packed({ ...draft, older, work: { ...older.work, title: 'Later' }, things: [] }),
    );
    expect(again.work).toEqual({ ...newer, title: 'Later' });
    expect(await again.bytes(sketch.hash)).toEqual(noise(900, 3));
  });
});
