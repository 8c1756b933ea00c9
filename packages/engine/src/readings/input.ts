import type { ReadingInput } from './reading.ts';

/** What has to be known of a picture before it can be read; the rest may be given. */
type Known = Pick<ReadingInput, 'picture' | 'census' | 'views' | 'intent'> & Partial<ReadingInput>;

/** What readings look at: without a baseline, with nothing left out, no photograph of a work and no layers, unless it is given. */
export function readingInput(known: Known): ReadingInput {
  return { baseline: null, leftOut: null, photographed: false, layers: null, ...known };
}
