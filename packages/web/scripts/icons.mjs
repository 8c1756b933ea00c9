// Draws the mark and its sizes into public/icons: a picture in two values, and a line from it to its notes.
// Run by `npm run icons -w @halflight/web` when the mark changes.
import { mkdir, writeFile } from 'node:fs/promises';
import sharp from 'sharp';

const FOLDER = new URL('../public/icons/', import.meta.url);

/** The mark on a square of 64; `inset` leaves the border free that a mask may cut off. */
function mark(inset) {
  const scale = (64 - 2 * inset) / 64;
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 64 64">
  <title>Halflight</title>
  <rect width="64" height="64" rx="${inset === 0 ? 9 : 0}" fill="#777777"/>
  <g transform="translate(${inset} ${inset}) scale(${scale})">
    <rect x="9" y="15" width="32" height="34" fill="#e8e8e8"/>
    <rect x="9" y="32" width="32" height="5" fill="#a8a8a8"/>
    <rect x="9" y="37" width="32" height="12" fill="#303030"/>
    <path d="M34 24 H48" stroke="#131313" stroke-width="2" fill="none"/>
    <circle cx="32" cy="24" r="3" fill="none" stroke="#131313" stroke-width="2"/>
    <path d="M48 24 H56 M48 31 H56 M48 38 H53" stroke="#131313" stroke-width="3" fill="none"/>
  </g>
</svg>
`;
}

await mkdir(FOLDER, { recursive: true });
await writeFile(new URL('mark.svg', FOLDER), mark(0));
for (const [name, size, inset] of [
  ['mark-180.png', 180, 4],
  ['mark-192.png', 192, 0],
  ['mark-512.png', 512, 0],
  ['mark-maskable-512.png', 512, 8],
]) {
  await sharp(Buffer.from(mark(inset)), { density: 72 * 8 })
    .resize(size, size)
    .png()
    .toFile(new URL(name, FOLDER).pathname);
}
