import { type Census, takeCensus } from '@halflight/engine';
import type { Request } from './helper.ts';
import { type LookedReading, takeReadings } from './readings.ts';

/** The second thread's side of `helper.ts`. */
export default function help(request: Request): Census | Promise<LookedReading[]> {
  if (request.ask === 'census') return takeCensus(request.raster);
  return takeReadings(request.input, request.maps, request.queue);
}
