import { type Options, Presets, SingleBar } from 'cli-progress';

/** Shows how far a long job is. */
export interface Progress {
  /** Another one is done; `name` is shown beside the bar. */
  step(name: string): void;
  /** Takes the bar away while something else is written. */
  pause(): void;
  end(): void;
}

const SILENT: Progress = { step() {}, pause() {}, end() {} };

/**
 * A bar on stderr for several pieces of work, when a person is looking; after a while it says how long the rest takes.
 */
export function openProgress(total: number, stream: NodeJS.WriteStream = process.stderr): Progress {
  if (total < 2 || !stream.isTTY) return SILENT;
  const options: Options = {
    format: '{bar} {value} of {total}{left}  {name}',
    stream,
    barsize: 24,
    clearOnComplete: true,
    hideCursor: true,
    gracefulExit: true,
  };
  const bar = new SingleBar(options, Presets.shades_grey);
  const start = performance.now();
  let running = false;
  let done = 0;
  let last = '';
  const show = (): void => {
    const shown = { name: last, left: leftWords(performance.now() - start, done, total) };
    if (running) bar.update(done, shown);
    else bar.start(total, done, shown);
    running = true;
  };
  show();
  return {
    step(name) {
      done++;
      last = name;
      show();
    },
    pause() {
      if (running) bar.stop();
      running = false;
    },
    end() {
      if (running) bar.stop();
      running = false;
    },
  };
}

/** Below this many milliseconds, and for the first few pieces, nothing can be said of the rest. */
const TOO_EARLY = 4000;
const TOO_FEW = 3;

/** ", about 3 minutes left" from how long it took so far; empty while that tells nothing. */
export function leftWords(elapsed: number, done: number, total: number): string {
  if (elapsed < TOO_EARLY || done < TOO_FEW || done >= total) return '';
  const seconds = ((elapsed / done) * (total - done)) / 1000;
  if (seconds < 55) return `, about ${Math.max(5, 5 * Math.round(seconds / 5))} seconds left`;
  const minutes = Math.round(seconds / 60);
  return `, about ${minutes} ${minutes === 1 ? 'minute' : 'minutes'} left`;
}
