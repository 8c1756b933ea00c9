import { expect, test } from 'vitest';
import { type Line, lineOfWork } from '../../../src/state/thinout/line.ts';

/** A line that is written down, and work that ends when it is told to. */
function written() {
  const shown: (string | null)[] = [];
  const line = lineOfWork((now: Line | null) =>
    shown.push(now && `${now.what}${now.progress.share === null ? '' : ` ${now.progress.share}`}`),
  );
  const work = (what: string) => {
    let end: (error?: Error) => void = () => undefined;
    let tell: (share: number) => void = () => undefined;
    const done = line
      .during(what, { doing: '', share: null }, (report) => {
        tell = (share) => report({ doing: '', share });
        return new Promise<void>((resolve, reject) => {
          end = (error) => (error ? reject(error) : resolve());
        });
      })
      .catch(() => undefined);
    return { done, end: (error?: Error) => end(error), tell: (share: number) => tell(share) };
  };
  return { shown, line, work };
}

test('a report that comes after the end is not told, so that nothing seems to run for ever', async () => {
  const { shown, work } = written();
  const reading = work('reading');
  reading.tell(0.5);
  reading.end();
  await reading.done;
  reading.tell(1);
  expect(shown).toEqual(['reading', 'reading 0.5', null]);
});

test('work that fails leaves no line', async () => {
  const { shown, work } = written();
  const reading = work('reading');
  reading.end(new Error('no picture'));
  await reading.done;
  expect(shown).toEqual(['reading', null]);
});

test('the line belongs to what began last: earlier work neither reports on it nor ends it', async () => {
  const { shown, work } = written();
  const [reading, weighing] = [work('reading'), work('weighing')];
  reading.tell(0.5);
  reading.end();
  await reading.done;
  weighing.tell(0.25);
  expect(shown).toEqual(['reading', 'weighing', 'weighing 0.25']);
});

test('a cleared line stays clear', async () => {
  const { shown, line, work } = written();
  const reading = work('reading');
  line.clear();
  reading.tell(0.5);
  reading.end();
  await reading.done;
  expect(shown).toEqual(['reading', null]);
});
