import type { Thinning } from '@halflight/engine';
import { proxy } from 'comlink';
import { Stopped } from '../../picture/client.ts';
import { type Thing, tell } from '../write.ts';
import { hold, layersClient } from './holding.ts';
import { get } from './store.ts';

/** The decided layers as a new layered file. */
export function thinned(thinning: Thinning, name: string): Thing {
  return {
    name,
    async make() {
      try {
        await hold();
        const choices = get().history.present;
        return await layersClient.run((desk) => desk.write(choices, thinning, name, proxy(tell)));
      } catch (error) {
        if (error instanceof Stopped) return null;
        throw error;
      }
    },
  };
}

/** Stops the writing; nothing of it is kept. */
export function stopWritingLayers(): void {
  layersClient.stop();
}
