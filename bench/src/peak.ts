// Checks one picture and prints the most memory that this process held, in kilobytes.
import { existsSync, readFileSync } from 'node:fs';
import { outcomes } from '@halflight/cli';
import { OPEN_INTENT } from '@halflight/engine';

const path = process.argv[2];
const wish = { intent: OPEN_INTENT, baseline: null, limitMegapixels: 100, maps: null };
for await (const outcome of outcomes([{ path, name: '' }], wish))
  if ('trouble' in outcome) throw new Error(outcome.trouble.sentence);
console.log(peakKilobytes());

/**
 * Linux hands the peak that `getrusage` tells from the parent down to its child, so that a bench with a large
 * picture in its hands would be measured instead; the status page of the process knows only its own.
 */
function peakKilobytes(): number {
  const status = '/proc/self/status';
  const own = existsSync(status) && /^VmHWM:\s*(\d+) kB$/m.exec(readFileSync(status, 'utf8'));
  return own ? Number(own[1]) : process.resourceUsage().maxRSS;
}
