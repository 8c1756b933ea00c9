import { existsSync, readFileSync } from 'node:fs';

/**
 * The most memory this process ever held. Linux hands the peak that `getrusage` tells from the parent down to its
 * child, so that a bench with a large picture in its hands would be measured instead; the status page of the process
 * knows only its own.
 */
export function peakKilobytes(): number {
  const status = '/proc/self/status';
  const own = existsSync(status) && /^VmHWM:\s*(\d+) kB$/m.exec(readFileSync(status, 'utf8'));
  return own ? Number(own[1]) : process.resourceUsage().maxRSS;
}
