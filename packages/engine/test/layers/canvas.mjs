// Writes canvas.json: 1 000 seeded pairs with alpha for every mode of Chromium's 2-D canvas, put together by it on a
// canvas of half floats, so that it rounds far below one code value. Kept are the colours times alpha and the alpha,
// in whole code values, as base64.
//
// Run from the checkout: node packages/engine/test/layers/canvas.mjs > packages/engine/test/layers/canvas.json
import { chromium } from 'playwright-core';

const MODES = [
  'source-over source-in source-out source-atop destination-over destination-in destination-out destination-atop',
  'lighter copy xor multiply screen overlay darken lighten color-dodge color-burn hard-light soft-light difference',
  'exclusion hue saturation color luminosity',
]
  .join(' ')
  .split(' ');
const browser = await chromium.launch({ executablePath: process.env.CHROMIUM, args: ['--no-sandbox'] });
const page = await browser.newPage();
const made = await page.evaluate((modes) => {
  const [W, H] = [40, 25];
  let x = 7;
  const codes = Uint8Array.from({ length: 8 * W * H }, () => {
    x = (Math.imul(x, 1664525) + 1013904223) >>> 0;
    return x >>> 24;
  });
  const sheet = (from) => {
    const context = new OffscreenCanvas(W, H).getContext('2d', { colorType: 'float16' });
    const data = new Uint8ClampedArray(4 * W * H);
    for (let p = 0; p < W * H; p++) data.set(codes.subarray(8 * p + from, 8 * p + from + 4), 4 * p);
    context.putImageData(new ImageData(data, W, H), 0, 0);
    return context;
  };
  const source = sheet(4);
  return modes.map((mode) => {
    const below = sheet(0);
    below.globalCompositeOperation = mode;
    if (below.globalCompositeOperation !== mode) throw new Error(`${mode} is not known`);
    below.drawImage(source.canvas, 0, 0);
    const { data } = below.getImageData(0, 0, W, H, { pixelFormat: 'rgba-float16' });
    if (!data.constructor.name.startsWith('Float')) throw new Error('no half floats');
    const bytes = Array.from(data, (v, i) =>
      String.fromCharCode(Math.round(255 * Math.min(1, i % 4 === 3 ? v : v * data[i - (i % 4) + 3]))),
    );
    return { mode, codes: btoa(bytes.join('')) };
  });
}, MODES);
process.stdout.write(`${JSON.stringify({ made: `Chromium ${browser.version()}`, modes: made }, null, 1)}\n`);
await browser.close();
