/**
 * A grey PNG of one 8-bit channel, without a profile: for maps, which are data and no picture.
 *
 * @param grey row-major, `width × height` codes
 */
export async function encodeGreyPng(grey: Uint8Array, width: number, height: number): Promise<Uint8Array> {
  const { default: sharp } = await import('sharp');
  return sharp(grey, { raw: { width, height, channels: 1 } })
    .toColourspace('b-w')
    .png()
    .toBuffer();
}
