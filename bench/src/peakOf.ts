// Loaded before a command: tells on its error stream, when it ends, the most memory that the process held.
import { isMainThread } from 'node:worker_threads';
import { peakKilobytes } from './peakKilobytes.ts';

if (isMainThread) process.on('exit', () => process.stderr.write(`\npeak ${peakKilobytes()} kB\n`));
