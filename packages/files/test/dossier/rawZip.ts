import { crc32, deflateRawSync } from 'node:zlib';

/** One file of a ZIP that is put together by hand, with every field free to lie. */
export interface RawEntry {
  readonly name: string;
  readonly data: Uint8Array;
  readonly deflate?: boolean;
  /** What the directory says in place of the truth. */
  readonly size?: number;
  readonly flags?: number;
  /** Unix mode, e.g. 0o120777 for a link. */
  readonly mode?: number;
  /** Place of its header, to let two entries share one. */
  readonly offset?: number;
}

/** A ZIP as APPNOTE.TXT 6.3 describes it, byte by byte, so that tests depend on no library's good manners. */
export function rawZip(entries: readonly RawEntry[]): Uint8Array<ArrayBuffer> {
  const parts: Buffer[] = [];
  const directory: Buffer[] = [];
  let at = 0;
  for (const { name, data, deflate, size, flags = 0, mode = 0o100644, offset } of entries) {
    const stored = deflate ? deflateRawSync(data) : Buffer.from(data);
    const file = Buffer.from(name);
    const common = Buffer.alloc(26);
    common.writeUInt16LE(20, 0);
    common.writeUInt16LE(0x800 | flags, 2);
    common.writeUInt16LE(deflate ? 8 : 0, 4);
    common.writeUInt16LE(0x5c21, 8); // 2026-01-01
    common.writeUInt32LE(crc32(data), 10);
    common.writeUInt32LE(stored.length, 14);
    common.writeUInt32LE(size ?? data.length, 18);
    common.writeUInt16LE(file.length, 22);
    const local = [Buffer.from('PK\x03\x04'), common, file, stored];
    const tail = Buffer.alloc(14);
    tail.writeUInt32LE((mode << 16) >>> 0, 6);
    tail.writeUInt32LE(offset ?? at, 10);
    directory.push(Buffer.from('PK\x01\x02'), Buffer.from([20, 3]), common, tail, file);
    parts.push(...local);
    at += local.reduce((sum, part) => sum + part.length, 0);
  }
  const end = Buffer.alloc(22);
  end.write('PK\x05\x06', 'latin1');
  end.writeUInt16LE(entries.length, 8);
  end.writeUInt16LE(entries.length, 10);
  end.writeUInt32LE(Buffer.concat(directory).length, 12);
  end.writeUInt32LE(at, 16);
  return new Uint8Array(Buffer.concat([...parts, ...directory, end]));
}
