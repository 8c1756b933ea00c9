// Run by the script: child KIND SEED FROM TO. Tells on file descriptor 3 what it is at, one line at a time.
import { writeSync } from 'node:fs';
import { KINDS } from './kinds.ts';
import { chanceOf } from './random.ts';

const [name, seed, from, to] = process.argv.slice(2);
const counts = { read: 0, refused: 0 };

// Written at once, so that the line is out before an input can hang or crash the process.
function tell(line: object): void {
  for (let rest = Buffer.from(`${JSON.stringify(line)}\n`); rest.length > 0; ) {
    try {
      rest = rest.subarray(writeSync(3, rest));
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== 'EAGAIN') throw error;
    }
  }
}

const kind = await KINDS[name]();
for (let number = Number(from); number < Number(to); number++) {
  tell({ at: number });
  try {
    counts[await kind.feed(kind.make(chanceOf(Number(seed), number)))]++;
  } catch (error) {
    tell({
      finding: number,
      what: String((error as Error)?.stack ?? error)
        .split('\n')
        .slice(0, 4)
        .join('\n')
        .slice(0, 900),
    });
  }
  tell({ peak: process.resourceUsage().maxRSS * 1024 });
}
tell({ end: counts });
process.exit(0);
