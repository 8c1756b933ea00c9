// Munsell value and chroma of 729 colours of the sRGB cube by an independent implementation of the renotation data
// (npm package "munsell" 1.1.6, MPL-2.0, not a dependency of this project).
//
// Writes munsell.json beside this file: a sample of the colours, and the figures over all of them that the engine
// uses. Run: npm i --no-save munsell && node munsell.mjs
import { writeFileSync } from 'node:fs';
import { rgbToMhvc } from 'munsell';

const linear = (v) => (v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4);
const cielabChroma = (r, g, b) => {
  const [R, G, B] = [r, g, b].map(linear);
  const X = 0.4123908 * R + 0.3575843 * G + 0.1804808 * B;
  const Y = 0.212639 * R + 0.7151687 * G + 0.0721923 * B;
  const Z = 0.0193308 * R + 0.1191948 * G + 0.9505322 * B;
  const f = (t) => (t > 216 / 24389 ? Math.cbrt(t) : ((24389 / 27) * t + 16) / 116);
  return Math.hypot(500 * (f(X / 0.95046) - f(Y)), 200 * (f(Y) - f(Z / 1.08906)));
};

const all = [];
for (let r = 0; r <= 8; r++)
  for (let g = 0; g <= 8; g++)
    for (let b = 0; b <= 8; b++) {
      const rgb = [r / 8, g / 8, b / 8];
      const [, value, chroma] = rgbToMhvc(...rgb);
      all.push({ rgb, value, chroma, cab: cielabChroma(...rgb) });
    }
const mean = (of) => all.reduce((s, p) => s + of(p), 0) / all.length;
const sd = (of) => Math.sqrt(mean((p) => (of(p) - mean(of)) ** 2));
const round = (v) => Math.round(1000 * v) / 1000;
const factor = mean((p) => p.cab * p.cab) / mean((p) => p.cab * p.chroma);
const out = {
  source: 'npm package munsell 1.1.6, over 729 colours of the sRGB cube',
  value: { mean: round(mean((p) => p.value)), sd: round(sd((p) => p.value)) },
  chroma: { mean: round(mean((p) => p.chroma)), sd: round(sd((p) => p.chroma)) },
  cabPerChroma: round(factor),
  rms: round(Math.sqrt(mean((p) => (p.cab / factor - p.chroma) ** 2))),
  colours: all
    .filter((_, i) => i % 13 === 0)
    .map(({ rgb, value, chroma }) => ({ rgb, value: round(value), chroma: round(chroma) })),
};
writeFileSync(new URL('./munsell.json', import.meta.url), `${JSON.stringify(out, null, 1)}\n`);
