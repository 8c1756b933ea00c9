import { hueName } from '@halflight/engine';
import type { Style } from '../terminal/style.ts';
import { FIRST_HUE, type Strips } from './strips.ts';

const LABEL = 8;
const LEVELS = ' ▁▂▃▄▅▆▇█';

/** The hues and the values of a picture in its own colours, each with a word beside it. */
export function drawStrips(strips: Strips, style: Style): string[] {
  const hues = strips.hues.some((step) => step.weight > 0) ? [hueStrip(strips, style)] : [];
  const values = strips.values.length > 0 ? [valueStrip(strips, style)] : [];
  return [...hues, ...values];
}

/** One column for each part of the hue circle, as high as the picture has of it; names of the hues below. */
function hueStrip({ hues }: Strips, { paint }: Style): string {
  const columns = hues.map(({ weight, colour }) => paint.hex(colour)(LEVELS[levelOf(weight)])).join('');
  return `${'Hues'.padEnd(LABEL)}${columns}\n${' '.repeat(LABEL)}${paint.dim(hueNames(hues))}`;
}

// The square root lets a small accent be seen beside a large sky.
function levelOf(weight: number): number {
  return weight < 0.002 ? 0 : Math.max(1, Math.round(8 * Math.sqrt(weight)));
}

/** Names under the columns where the picture has something to name, as far as they fit. */
function hueNames(hues: Strips['hues']): string {
  let line = '';
  let last = '';
  for (let step = 0; step < hues.length; step++) {
    const name = hueName(FIRST_HUE + ((step + 0.5) / hues.length) * 360);
    if (levelOf(hues[step].weight) === 0 || name === last || step < line.length) continue;
    const room = hues.length - step;
    if (name.length > room) break;
    line = `${line.padEnd(step)}${name} `;
    last = name;
  }
  return line.trimEnd();
}

/** From dark to light in equal shares of the area: the colours above, their values below. */
function valueStrip({ values }: Strips, { paint }: Style): string {
  const columns = values.map(({ colour, grey }) => paint.hex(colour).bgHex(grey)('▀')).join('');
  return `${'Values'.padEnd(LABEL)}${columns}`;
}
