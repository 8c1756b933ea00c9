/** The sRGB profile as a part of a JPEG file, so that many files get it without a colour conversion each. */
import sharp from 'sharp';

/** The APP2 segments (ICC.1:2022, annex B.4) that an sRGB picture of the imaging library has. */
export async function profileSegment(): Promise<Uint8Array> {
  const one = { width: 1, height: 1, channels: 3, background: '#777' } as const;
  const bytes = await sharp({ create: one }).withIccProfile('srgb').jpeg().toBuffer();
  const segments: Uint8Array[] = [];
  // Markers follow each other until the scan: 0xff, kind, and a length that counts itself (ITU-T T.81, B.1.1).
  for (let at = 2; bytes[at + 1] !== 0xda; at += 2 + bytes.readUInt16BE(at + 2))
    if (bytes[at + 1] === 0xe2) segments.push(bytes.subarray(at, at + 2 + bytes.readUInt16BE(at + 2)));
  if (segments.length === 0) throw new Error('The imaging library wrote no profile.');
  return Buffer.concat(segments);
}

/** A JPEG file with segments behind its first one (JFIF), which must stay the first. */
export function withSegment(jpeg: Buffer, segment: Uint8Array): Uint8Array {
  const begin = jpeg[3] === 0xe0 ? 4 + jpeg.readUInt16BE(4) : 2;
  return Buffer.concat([jpeg.subarray(0, begin), segment, jpeg.subarray(begin)]);
}
