import { readdirSync, readFileSync } from 'node:fs';

/** Milliseconds between two looks at the memory. */
const EACH = 50;

/**
 * Watches the memory of a process with all that it started, until it ends: resident pages summed over them, so that
 * pages which several share count several times.
 *
 * @returns tells the most that was seen, in kilobytes; 0 where the system does not tell (Linux does)
 */
export function watchTree(pid: number): () => number {
  let peak = 0;
  const timer = setInterval(() => {
    peak = Math.max(peak, residentOf(pid));
  }, EACH);
  return () => {
    clearInterval(timer);
    return peak;
  };
}

function residentOf(pid: number): number {
  try {
    const own = Number(/^VmRSS:\s*(\d+) kB$/m.exec(readFileSync(`/proc/${pid}/status`, 'utf8'))?.[1] ?? 0);
    const children = readdirSync(`/proc/${pid}/task`).flatMap((task) =>
      readFileSync(`/proc/${pid}/task/${task}/children`, 'utf8').trim().split(' ').filter(Boolean),
    );
    return children.reduce((sum, child) => sum + residentOf(Number(child)), own);
  } catch {
    return 0; // it has just ended
  }
}
