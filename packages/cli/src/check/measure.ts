import { type Census, makeViews, type Raster, takeCensus, type Views } from '@halflight/engine';
import Tinypool from 'tinypool';

export interface Measured {
  readonly census: Census;
  readonly views: Views;
}

/** Makes the two things that every reading stands on. */
export type Measure = (raster: Raster) => Measured | Promise<Measured>;

/** On this thread alone: for workers that have a picture each. */
export const measureHere: Measure = (raster) => ({ census: takeCensus(raster), views: makeViews(raster) });

// Below these a second thread costs more than it saves.
const WORTH_A_THREAD = 500_000;
const WORTH_SHARING = 2_000_000;

/** A second thread that takes the census of one picture while this one makes the views. */
export interface Helper {
  readonly measure: Measure;
  close(): Promise<void>;
}

/**
 * Starts the second thread at once, so that it is ready when the picture is decoded; none for a small file.
 *
 * @param bytes size of the file
 */
export function openHelper(bytes: number): Helper {
  if (bytes < WORTH_A_THREAD) return { measure: measureHere, close: async () => {} };
  const pool = new Tinypool({
    filename: new URL('./censusWorker.js', import.meta.url).href,
    minThreads: 1,
    maxThreads: 1,
  });
  return {
    async measure(raster) {
      if (raster.width * raster.height < WORTH_SHARING) return measureHere(raster);
      const shared = share(raster);
      const census: Promise<Census> = pool.run(shared);
      const views = makeViews(shared);
      return { census: await census, views };
    },
    close: () => pool.destroy(),
  };
}

/** The same picture in memory that both threads see. */
function share(raster: Raster): Raster {
  const { data } = raster;
  if (data.buffer instanceof SharedArrayBuffer) return raster;
  const copy = new (data.constructor as typeof Uint8Array)(new SharedArrayBuffer(data.byteLength));
  copy.set(data);
  return { ...raster, data: copy };
}
