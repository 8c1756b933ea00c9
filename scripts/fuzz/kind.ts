import { FileTrouble } from '@halflight/files';
import type { Chance } from './random.ts';

/** One kind of input from outside that is tried with changed samples. */
export interface Kind {
  /** Makes an input; the same chance makes the same input. */
  make(chance: Chance): Uint8Array;
  /** Gives the input to the product. What is thrown here is a finding. */
  feed(bytes: Uint8Array): Promise<Outcome>;
}

/** What may come of an input: it was read, or refused in words. */
export type Outcome = 'read' | 'refused';

/** Words that only programmers know, and numbers that are none. */
const TECHNICAL =
  /vips|libpng|\bat \/|\bundefined\b|\bNaN\b|\bInfinity\b|\[object |of undefined|not a function/;

/** Fails unless the text can be put before people. */
export function expectWords(text: string): void {
  if (text.trim() === '' || TECHNICAL.test(text))
    throw new Error(`no words for people: ${text.slice(0, 300)}`);
}

/** Runs a reader: what it refuses in words is fine, anything else it throws is a finding. */
export async function refusing(read: () => Promise<void> | void): Promise<Outcome> {
  try {
    await read();
    return 'read';
  } catch (error) {
    if (!(error instanceof FileTrouble)) throw error;
    expectWords(error.sentence);
    expectWords(error.todo);
    return 'refused';
  }
}

export function expectThat(holds: boolean, what: string): void {
  if (!holds) throw new Error(what);
}
