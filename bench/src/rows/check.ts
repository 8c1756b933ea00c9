import { stat } from 'node:fs/promises';
import { availableParallelism } from 'node:os';
import { openHelper, outcomes, type Wish } from '@halflight/cli';
import { examineReading, OPEN_INTENT, READINGS, rank, readingInput } from '@halflight/engine';
import { openCodec, readPicture } from '@halflight/files/node';
import type { Figure } from '../figure.ts';
import { noisyPicture, paintedPicture } from '../pictures.ts';
import { race } from '../time.ts';

const WISH: Wish = { intent: OPEN_INTENT, baseline: null, limitMegapixels: 100, maps: null };
const PILE = 4;

/** Readings of colour and value, which the goal is about; light and detail look at strokes and take their time. */
const FOUR = READINGS.filter((kind) => ['hueSpread', 'headroom', 'value', 'mood'].includes(kind.id));

/** The whole check of a file as the command does it, against decoding alone: a painting, then pure noise. */
export async function checkRows(): Promise<Figure[]> {
  return [
    ...(await rowsOf('a painting of 24 MP', await paintedPicture())),
    ...(await rowsOf('noise of 24 MP', await noisyPicture())),
  ];
}

async function rowsOf(title: string, path: string): Promise<Figure[]> {
  const codec = await openCodec();
  const cores = availableParallelism();
  const decode = (): Promise<unknown> => readPicture(path, { codec });
  const check = async (count: number): Promise<void> => {
    const tasks = Array.from({ length: count }, () => ({ path, name: '' }));
    for await (const outcome of outcomes(tasks, WISH))
      if ('trouble' in outcome) throw new Error(outcome.trouble.sentence);
  };
  const { size } = await stat(path);
  const four = async (): Promise<void> => {
    const helper = openHelper(size);
    const { raster, facts } = await readPicture(path, { codec });
    const measured = await helper.measure(raster);
    const input = readingInput({ picture: facts, ...measured, intent: OPEN_INTENT });
    rank(
      FOUR.map((kind) => examineReading(kind, input)),
      OPEN_INTENT,
    );
    await helper.close();
  };
  const best = await race(3, { decode, four, check: () => check(1), pile: () => check(PILE) });
  codec.close();
  const reference = { what: 'decoding alone', value: best.decode };
  return [
    { what: `${title}: colour, value and mood`, value: best.four, unit: 'ms', reference, goal: 1.8 },
    { what: '  all readings', value: best.check, unit: 'ms', reference },
    {
      what: `  all readings of ${PILE} such on ${cores} cores`,
      value: best.pile,
      unit: 'ms',
      reference: { what: `decoding alone × ${PILE} / ${cores}`, value: (best.decode * PILE) / cores },
    },
  ];
}
