import { execFileSync } from 'node:child_process';
import { existsSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { outcomes } from '@halflight/cli';
import { OPEN_INTENT } from '@halflight/engine';
import { openCodec, readPicture } from '@halflight/files/node';
import sharp from 'sharp';
import type { Figure } from '../figure.ts';
import { paintedPicture } from '../pictures.ts';
import { type Course, plot } from '../plot.ts';
import { race } from '../time.ts';

const CACHE = fileURLToPath(new URL('../../../.cache/bench/', import.meta.url));
const PEAK = fileURLToPath(new URL('../peak.js', import.meta.url));
const WISH = { intent: OPEN_INTENT, baseline: null, limitMegapixels: 100, maps: null };
const MEGAPIXELS = [1, 6, 24, 60] as const;

/** How time and memory of a check grow with the picture; draws the plot `growth.svg` into the bench's cache. */
export async function growthRows(): Promise<Figure[]> {
  const codec = await openCodec();
  const figures: Figure[] = [];
  const courses: Record<'check' | 'decoding' | 'memory', Course['points'][number][]> = {
    check: [],
    decoding: [],
    memory: [],
  };
  for (const megapixels of MEGAPIXELS) {
    const path = await sized(megapixels);
    const best = await race(3, {
      decode: () => readPicture(path, { codec }),
      check: async () => {
        for await (const outcome of outcomes([{ path, name: '' }], WISH))
          if ('trouble' in outcome) throw new Error(outcome.trouble.sentence);
      },
    });
    const peak = Number(execFileSync(process.execPath, [PEAK, path], { encoding: 'utf8' })) / 1024;
    courses.check.push([megapixels, best.check]);
    courses.decoding.push([megapixels, best.decode]);
    courses.memory.push([megapixels, peak]);
    figures.push(
      {
        what: `a painting of ${megapixels} MP: check, all readings`,
        value: best.check,
        unit: 'ms',
        reference: { what: 'decoding alone', value: best.decode },
      },
      { what: '  memory peak', value: peak, unit: 'MB' },
    );
  }
  codec.close();
  const file = `${CACHE}growth.svg`;
  writeFileSync(
    file,
    plot('A check grows with the picture', 'megapixels', [
      { name: 'check, ms', points: courses.check },
      { name: 'decoding, ms', points: courses.decoding },
      { name: 'memory peak, MB', points: courses.memory },
    ]),
  );
  console.error(`  drawn: ${file}`);
  return figures;
}

/** Path of the painting in another size, PNG. */
async function sized(megapixels: number): Promise<string> {
  const painted = await paintedPicture();
  if (megapixels === 24) return painted;
  const path = `${CACHE}painted-${megapixels}.png`;
  if (!existsSync(path)) {
    const width = Math.round(Math.sqrt(1.5e6 * megapixels));
    await sharp(painted).resize(width).png().toFile(path);
  }
  return path;
}
