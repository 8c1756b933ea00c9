const IHDR = 0x49484452;

/**
 * Width and height as the header of a PNG tells them; null for anything else.
 *
 * Source: PNG, third edition, sections 5.2 and 11.2.1.
 */
export function pngSize(bytes: Uint8Array): { width: number; height: number } | null {
  if (bytes.length < 24) return null;
  const view = new DataView(bytes.buffer, bytes.byteOffset);
  if (view.getUint32(12) !== IHDR) return null;
  return { width: view.getUint32(16), height: view.getUint32(20) };
}
