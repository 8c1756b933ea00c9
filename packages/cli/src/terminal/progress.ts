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

/** A bar on stderr for several pieces of work, when a person is looking. */
export function openProgress(total: number, stream: NodeJS.WriteStream = process.stderr): Progress {
  if (total < 2 || !stream.isTTY) return SILENT;
  const options: Options = {
    format: '{bar} {value} of {total}  {name}',
    stream,
    barsize: 24,
    clearOnComplete: true,
    hideCursor: true,
    gracefulExit: true,
  };
  const bar = new SingleBar(options, Presets.shades_grey);
  let running = false;
  let done = 0;
  let last = '';
  const show = (): void => {
    if (running) bar.update(done, { name: last });
    else bar.start(total, done, { name: last });
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
