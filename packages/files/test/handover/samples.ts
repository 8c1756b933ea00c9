import { type HandoverSettings, PRESETS, type Raster, type Recipe, SRGB } from '@halflight/engine';
import type { HandoverSource } from '../../src/handover/job.ts';

/** A small picture of gradients, a third of it clear where it has a fourth channel. */
export function source(channels: 3 | 4 = 3, space = SRGB): HandoverSource {
  const width = 90;
  const height = 60;
  const data = new Uint16Array(width * height * channels);
  for (let y = 0, i = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const dusk = [x / width, y / height, 0.3 + 0.5 * Math.sin(x / 9) * Math.cos(y / 7), x < 30 ? 0 : 1];
      for (let c = 0; c < channels; c++) data[i++] = Math.round(65535 * Math.min(1, Math.max(0, dusk[c])));
    }
  const raster: Raster = { width, height, channels, depth: 16, data, space };
  const facts = { name: 'ferry.png', width, height, depth: 16 as const, profile: space.name, tagged: true };
  return { raster, facts, profile: null, metadata: { exif: null, xmp: null, iptc: null } };
}

export const recipe: Recipe = {
  schema: 'halflight/recipe@1',
  steps: [{ kind: 'exposure', on: true, strength: 1, values: { stops: -0.3 } }],
};

/** The settings of a screen at 45 pixels, changed. */
export function settings(change: Partial<HandoverSettings>): HandoverSettings {
  return { ...PRESETS.screen, size: { ...PRESETS.screen.size, width: 45, height: 45 }, ...change };
}
