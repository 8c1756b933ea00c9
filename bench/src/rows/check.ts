import { availableParallelism } from 'node:os';
import { outcomes, type Wish } from '@halflight/cli';
import { OPEN_INTENT } from '@halflight/engine';
import { openCodec, readPicture } from '@halflight/files/node';
import type { Figure } from '../figure.ts';
import { noisyPicture } from '../noisy.ts';
import { race } from '../time.ts';

const WISH: Wish = { intent: OPEN_INTENT, baseline: null, limitMegapixels: 100, maps: null };
const PILE = 4;

/** The whole check of a file as the command does it, against decoding alone. */
export async function checkRows(): Promise<Figure[]> {
  const path = await noisyPicture();
  const codec = await openCodec();
  const cores = availableParallelism();
  const decode = (): Promise<unknown> => readPicture(path, { codec });
  const check = async (count: number): Promise<void> => {
    const tasks = Array.from({ length: count }, () => ({ path, name: '' }));
    for await (const outcome of outcomes(tasks, WISH))
      if ('trouble' in outcome) throw new Error(outcome.trouble.sentence);
  };
  const best = await race(5, { decode, check: () => check(1), pile: () => check(PILE) });
  codec.close();
  return [
    {
      what: 'whole check, PNG, 24 MP',
      value: best.check,
      unit: 'ms',
      reference: { what: 'decoding alone', value: best.decode },
      goal: 1.8,
    },
    {
      what: `whole check of ${PILE} such pictures on ${cores} cores`,
      value: best.pile,
      unit: 'ms',
      reference: { what: `decoding alone × ${PILE} / ${cores}`, value: (best.decode * PILE) / cores },
    },
  ];
}
