import { depthIn, lightRows, SRGB } from '@halflight/engine';
import { FileTrouble } from '../trouble.ts';
import { inkRows } from './inkRows.ts';
import type { Inks } from './inks.ts';
import { encode, hold, type Job, progress, WRITTEN, type Written, written } from './job.ts';
import { countInk } from './proof.ts';
import { openWitness, witnessOf } from './witness.ts';

/** A file in a profile with tables: inks, or RGB of a printer. */
export async function inInks(job: Job, inks: Inks): Promise<Written> {
  const { settings, plan, source, ready, codec } = job;
  const { space: way } = settings;
  if (typeof way === 'string') throw new RangeError('inks need a profile');
  if (inks.channels === 4 && settings.format !== 'tiff' && settings.format !== 'jpeg')
    throw new FileTrouble(
      'option',
      `${settings.format.toUpperCase()} can’t hold inks (CMYK).`,
      'Choose TIFF or JPEG.',
    );
  const depth = depthIn(settings);
  // Held in the picture's own space, not in sRGB: a paper may show what sRGB can't.
  const target = { space: source.raster.space, ground: settings.size.ground, opaque: true, edits: job.edits };
  const rows = inkRows(lightRows(ready, source.raster, plan, target), plan, target.space, inks, depth, way);
  const { channels } = inks;
  const counter = channels === 4 ? countInk() : null;
  const witness = openWitness(plan.width, plan.height, channels);
  const picture = { channels, depth, space: SRGB, profile: inks.profile.bytes, inks: channels === 4 };
  const bytes = await encode(job, picture, (y, count) => {
    const out = rows(y, count);
    counter?.add(out);
    witness.see(out, y, count);
    return out;
  });
  progress(job, 'Reading the file back', WRITTEN);
  const back = await codec.readCodes(bytes);
  const fits =
    back.width === plan.width &&
    back.height === plan.height &&
    back.channels === channels &&
    back.depth === depth;
  hold(job, witness, fits ? witnessOf(back, channels, false) : null, depth);
  return written(job, bytes, depth, inks.profile.name, counter?.use() ?? null);
}
