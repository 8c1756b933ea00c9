/** A one-strip, uncompressed RGB TIFF (TIFF 6.0, section 6), with extra tags as [tag, LONG value]. */
export function makeTiff(
  width: number,
  height: number,
  samples: readonly number[],
  extra: readonly [number, number][],
) {
  const SHORT = 3;
  const LONG = 4;
  const entries: [tag: number, type: number, value: number][] = [
    ...extra.map(([tag, value]): [number, number, number] => [tag, LONG, value]),
    [256, LONG, width],
    [257, LONG, height],
    [258, SHORT, 8],
    [262, SHORT, 2],
    [273, LONG, 8],
    [277, SHORT, 3],
    [278, LONG, height],
    [279, LONG, samples.length],
  ];
  entries.sort(([a], [b]) => a - b);
  const directory = Buffer.alloc(2 + 12 * entries.length + 4);
  directory.writeUInt16LE(entries.length, 0);
  for (const [i, [tag, type, value]] of entries.entries()) {
    directory.writeUInt16LE(tag, 2 + 12 * i);
    directory.writeUInt16LE(type, 4 + 12 * i);
    directory.writeUInt32LE(1, 6 + 12 * i);
    directory.writeUInt32LE(value, 10 + 12 * i);
  }
  const head = Buffer.from('II*\0\0\0\0\0', 'latin1');
  head.writeUInt32LE(8 + samples.length, 4);
  return new Uint8Array(Buffer.concat([head, Uint8Array.from(samples), directory]));
}
