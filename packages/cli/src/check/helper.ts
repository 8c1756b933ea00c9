import { type Census, makeViews, type Raster, type ReadingInput } from '@halflight/engine';
import Tinypool from 'tinypool';
import type { Hands } from './look.ts';
import { measure } from './measure.ts';
import {
  inOrder,
  type LookedReading,
  type MapPlace,
  openQueue,
  type Queue,
  takeReadings,
} from './readings.ts';

/** What the second thread is asked for. */
export type Request =
  | { readonly ask: 'census'; readonly raster: Raster }
  | {
      readonly ask: 'readings';
      readonly input: ReadingInput;
      readonly maps: MapPlace | null;
      readonly queue: Queue;
    };

/** A second thread that shares the work on one picture. */
export interface Helper extends Omit<Hands, 'codec'> {
  close(): Promise<void>;
}

// Below these a second thread costs more than it saves.
const WORTH_A_THREAD = 500_000;
const WORTH_SHARING = 2_000_000;

/**
 * Starts the second thread at once, so that it is ready when the picture is decoded; none for a small file.
 *
 * @param bytes size of the file
 */
export function openHelper(bytes: number): Helper {
  if (bytes < WORTH_A_THREAD) return { measure, read: takeReadings, close: async () => {} };
  const pool = new Tinypool({
    filename: new URL('./helperWorker.js', import.meta.url).href,
    minThreads: 1,
    maxThreads: 1,
  });
  const ask = <T>(request: Request): Promise<T> => pool.run(request);
  return {
    async measure(raster) {
      if (raster.width * raster.height < WORTH_SHARING) return measure(raster);
      const shared = share(raster);
      const census = ask<Census>({ ask: 'census', raster: shared });
      const views = makeViews(shared);
      return { census: await census, views };
    },
    async read(input, maps) {
      const queue = openQueue();
      const theirs = ask<LookedReading[]>({ ask: 'readings', input, maps, queue });
      const ours = await takeReadings(input, maps, queue);
      return inOrder([...ours, ...(await theirs)]);
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
