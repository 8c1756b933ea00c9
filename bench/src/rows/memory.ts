import { execFileSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import type { Figure } from '../figure.ts';
import { noisyPicture } from '../pictures.ts';

const PEAK = fileURLToPath(new URL('../peak.js', import.meta.url));

/** Most memory a process of its own ever held while it checked one picture. */
export async function memoryRows(): Promise<Figure[]> {
  const kilobytes = Number(
    execFileSync(process.execPath, [PEAK, await noisyPicture()], { encoding: 'utf8' }),
  );
  return [{ what: 'memory peak of a check, 24 MP', value: kilobytes / 1024, unit: 'MB', goal: 600 }];
}
