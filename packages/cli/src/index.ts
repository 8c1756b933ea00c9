/** The parts of the command line that the bench runs in its own process. */
export { outcomes } from './check/all.ts';
export { openHelper } from './check/helper.ts';
export type { Task, Wish } from './check/look.ts';
export type { Outcome } from './check/outcome.ts';
