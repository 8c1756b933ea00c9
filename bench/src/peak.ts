// Checks one picture and prints the most memory that this process held, in kilobytes.
import { outcomes } from '@halflight/cli';
import { OPEN_INTENT } from '@halflight/engine';
import { peakKilobytes } from './peakKilobytes.ts';

const path = process.argv[2];
const wish = { intent: OPEN_INTENT, baseline: null, limitMegapixels: 100, maps: null };
for await (const outcome of outcomes([{ path, name: '' }], wish))
  if ('trouble' in outcome) throw new Error(outcome.trouble.sentence);
console.log(peakKilobytes());
