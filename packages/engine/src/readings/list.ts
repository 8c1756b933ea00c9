import type { ReadingKind } from './reading.ts';

/** Every reading, in the order of reports. One line here makes a reading appear everywhere. */
export const READINGS: readonly ReadingKind[] = [];
