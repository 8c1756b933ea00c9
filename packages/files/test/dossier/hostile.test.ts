import { describe, expect, test } from 'vitest';
import { bytesSource, openDossier } from '../../src/dossier/index.ts';
import { FileTrouble } from '../../src/trouble.ts';
import { type RawEntry, rawZip } from './rawZip.ts';
import { draft, first, noise, packed, sha256, work } from './samples.ts';

const NAME = 'ferry.halflight';
const open = async (bytes: Uint8Array) => openDossier(bytesSource(bytes, NAME));

/** The trouble that opening ends in, and reading everything where it opens. */
async function troubleWith(bytes: Uint8Array): Promise<FileTrouble | null> {
  try {
    return (await (await open(bytes)).verify())[0] ?? null;
  } catch (error) {
    expect(error).toBeInstanceOf(FileTrouble);
    return error as FileTrouble;
  }
}

const text = (value: unknown): Uint8Array => new TextEncoder().encode(JSON.stringify(value));
const file = { hash: sha256(first), bytes: first.length, mediaType: 'image/png', path: 'pictures/first.png' };
const plainWork = { ...work, versions: work.versions.map(({ readings: _, ...rest }) => rest) };
const manifest = { schema: 'halflight/dossier@1', writer: '', written: '', work: plainWork, files: [file] };
const picture: RawEntry = { name: file.path, data: first };
const withManifest = (change: object): RawEntry => ({
  name: 'manifest.json',
  data: text({ ...manifest, ...change }),
});
const whole = withManifest({});

test('the ZIP that is put together by hand is a dossier', async () => {
  expect(await troubleWith(rawZip([whole, picture]))).toBeNull();
});

describe('is refused with a sentence', () => {
  const zeros = new Uint8Array(4_000_000);
  test.each<[string, Uint8Array, RegExp]>([
    ['a way out upwards', rawZip([whole, picture, { name: '../../evil.txt', data: first }]), /leads outside/],
    ['an absolute name', rawZip([whole, picture, { name: '/etc/evil', data: first }]), /leads outside/],
    ['a drive letter', rawZip([whole, picture, { name: 'C:/evil.txt', data: first }]), /leads outside/],
    ['a way out by backslashes', rawZip([whole, { name: '..\\evil.txt', data: first }]), /leads outside/],
    ['a link', rawZip([whole, picture, { name: 'x', data: text('/etc/passwd'), mode: 0o120777 }]), /a link/],
    ['a locked file', rawZip([whole, picture, { name: 'x', data: first, flags: 1 }]), /locked by a password/],
    ['a name twice', rawZip([whole, picture, picture]), /not safe to open/],
    [
      'a path outside in the manifest',
      rawZip([withManifest({ files: [{ ...file, path: '../x.png' }] }), picture]),
      /“files.0.path” is no name inside/,
    ],
    [
      'a decompression bomb',
      rawZip([whole, { name: file.path, data: zeros, deflate: true }]),
      /would swell to 4 MB/,
    ],
    [
      'a bomb that lies about its size',
      rawZip([{ name: 'manifest.json', data: zeros, deflate: true, size: 900 }, picture]),
      /not safe to open|damaged/,
    ],
    [
      'a picture larger than the manifest says',
      rawZip([withManifest({ files: [{ ...file, bytes: 10 }] }), picture]),
      /checksum differs/,
    ],
    [
      'two files in one place',
      rawZip([whole, picture, { ...picture, name: 'again.png', offset: 0 }]),
      /overlap/,
    ],
    [
      'a changed picture with a right ZIP checksum',
      rawZip([whole, { ...picture, data: noise(first.length, 9) }]),
      /checksum differs/,
    ],
    ['a picture that is not there', rawZip([whole]), /lacks “pictures\/first.png”/],
    [
      'a newer version',
      rawZip([withManifest({ schema: 'halflight/dossier@2' }), picture]),
      /newer Halflight \(version 2/,
    ],
    ['no work', rawZip([withManifest({ work: undefined }), picture]), /“work” is missing/],
    [
      'a work without versions',
      rawZip([withManifest({ work: { ...plainWork, versions: [] } }), picture]),
      /at least one version/,
    ],
    [
      'an intent that is none',
      rawZip([
        withManifest({
          work: { ...plainWork, intent: { schema: 'halflight/intent@1', hue: { families: 3 } } },
        }),
        picture,
      ]),
      /intent or edit/,
    ],
    ['a manifest that is no JSON', rawZip([{ name: 'manifest.json', data: first }, picture]), /no JSON/],
    ['another ZIP', rawZip([picture]), /not a dossier of Halflight/],
    ['no ZIP', noise(2000, 4), /it is no ZIP/],
    ['an empty file', new Uint8Array(), /it is empty/],
  ])('%s', async (_, bytes, sentence) => {
    expect((await troubleWith(bytes))?.message).toMatch(sentence);
  });
});

test('a dossier cut off at any length is told, and never half opened', async () => {
  const bytes = await packed();
  for (let k = 0; k < 40; k++) {
    const trouble = await troubleWith(bytes.subarray(0, Math.floor((bytes.length * k) / 40)));
    expect(trouble?.sentence).toMatch(/ferry\.halflight/);
  }
});

test('a changed byte anywhere is noticed, or changes nothing', async () => {
  const bytes = await packed();
  let noticed = 0;
  for (let k = 0; k < 100; k++) {
    const at = (k * 7919 + 13) % bytes.length;
    const changed = bytes.slice();
    changed[at] ^= 1 << (k % 8);
    const trouble = await troubleWith(changed);
    if (trouble) noticed++;
    else {
      const dossier = await open(changed);
      expect(dossier.work).toEqual(work);
      expect(await dossier.bytes(sha256(first))).toEqual(first);
    }
  }
  expect(noticed).toBeGreaterThan(80);
});

test('what is whole can be had although another thing is damaged', async () => {
  const bytes = await packed();
  const at = Buffer.from(bytes).indexOf(Buffer.from(first.subarray(0, 64)));
  bytes[at + 5] ^= 255;
  const dossier = await open(bytes);
  expect((await dossier.verify()).map(({ sentence }) => sentence)).toEqual([
    expect.stringMatching(/checksum differs/),
  ]);
  expect(draft.work.versions[0].readings).toBeDefined();
  expect((await dossier.bytes(draft.work.versions[0].readings!)).length).toBeGreaterThan(10);
});
