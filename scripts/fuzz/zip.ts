import type { RawEntry } from '../../packages/files/test/dossier/rawZip.ts';
import { changeBytes } from './bytes.ts';
import type { Chance } from './random.ts';

const NAMES = [
  '../out.txt',
  '/out.txt',
  'C:/out',
  '..\\out',
  '',
  'manifest.json',
  'stack.xml',
  'a/'.repeat(200),
  'data/a.png',
  '\u0000',
];

/** The files of a ZIP with one field of one of them turned into a lie. */
export function changeZip(entries: readonly RawEntry[], chance: Chance): RawEntry[] {
  const at = chance.below(entries.length);
  const entry = entries[at];
  const lies: (() => RawEntry[])[] = [
    () => [{ ...entry, name: chance.one(NAMES) }],
    () => [{ ...entry, data: changeBytes(entry.data, chance) }],
    () => [{ ...entry, size: chance.one([0, 1, 2 ** 20, 2 ** 31, 2 ** 32 - 1]) }],
    () => [{ ...entry, flags: chance.one([1, 8, 64, 0x2000]) }],
    () => [{ ...entry, mode: chance.one([0o120777, 0o40755, 0o60600]) }],
    () => [{ ...entry, offset: chance.one([0, 1, 2 ** 31, 2 ** 32 - 1]) }],
    () => [{ ...entry, data: new Uint8Array(chance.one([0, 3_000_000])), deflate: true }],
    () => [entry, entry],
    () => [entry, { ...entry, name: chance.one(NAMES) }],
    () => [],
  ];
  return [...entries.slice(0, at), ...chance.one(lies)(), ...entries.slice(at + 1)];
}
