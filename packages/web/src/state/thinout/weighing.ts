import { proxy } from 'comlink';
import { type Choices, NO_CHOICES } from '../../document/layers.ts';
import { say } from '../session.ts';
import { hold, layersClient, line, tellTrouble } from './holding.ts';
import { get, set, type ThinoutState } from './store.ts';

/** Weighs what was read, and finds the ways to have fewer layers. */
export async function weigh(): Promise<void> {
  const { source, running, history, seen: before } = get();
  if (source === null || running) return;
  // What belongs together is found among all layers, before anything was decided.
  const choices = before === null ? NO_CHOICES : history.present;
  const first = { doing: 'Taking each layer away and looking', share: 0 };
  set({ stopped: false });
  try {
    await hold();
    if (get().source !== source) return;
    const seen = await line.during('Weighing the layers', first, (tell) =>
      layersClient.run((desk) => desk.weigh(choices, before?.reading ?? null, proxy(tell))),
    );
    if (get().source !== source) return;
    set({ seen, weighedAs: choices });
    say('The layers are weighed.');
    void plan();
  } catch (error) {
    if (get().source === source) tellTrouble(error);
  }
}

/** Finds the ways to have fewer layers, after what was decided. */
export async function plan(): Promise<void> {
  const { source, seen, history } = get();
  if (seen === null || source === null || source.kind === 'pair') return;
  try {
    await hold();
    if (get().source !== source || get().history !== history) return;
    const stages = await layersClient.run((desk) => desk.plan(history.present, seen.reading));
    if (stages && get().source === source && get().history === history) set({ plan: stages });
  } catch (error) {
    if (get().source === source) tellTrouble(error);
  }
}

/** Stops reading or weighing; what is known stays. */
export function stopThinout(): void {
  layersClient.stop();
  line.clear();
  set({ stopped: true });
}

/** Whether what was decided since the layers were weighed changes what they are worth. */
export function isStale({ weighedAs, history, seen }: ThinoutState): boolean {
  if (seen === null) return false;
  const counts = (path: string): boolean =>
    seen.layers.some((one) => one.path === path && !one.redundant) &&
    seen.reading.layers.some((one) => one.path === path && one.visible);
  const shows = ({ dropped, chosen, settled }: Choices): string => {
    // What shows nothing can go without a change, and so can what is hidden.
    const felt = dropped.filter(counts);
    const other = chosen.map(({ kept }) => kept).filter((kept) => !counts(kept));
    return JSON.stringify([felt.sort(), other.sort(), settled]);
  };
  return shows(weighedAs) !== shows(history.present);
}
