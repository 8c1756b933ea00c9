import type { GivenPicture, LayerSource } from '../../workers/layers/desk.ts';
import { isArranged, layersClient, line, tellTrouble } from './holding.ts';
import { ownName } from './kept.ts';
import { compare, look } from './looking.ts';
import { type Arrangement, get, set } from './store.ts';
import { forget, take } from './taking.ts';

/** A file with the name it is called by. */
export interface NamedFile {
  readonly name: string;
  readonly file: Blob;
}

/** Takes pictures as layers, over those that are there; of two beside the open picture it may be without one layer. */
export async function takePictures(files: readonly NamedFile[], flat: NamedFile | null): Promise<void> {
  const prior = get().arrangement;
  const before = prior?.pictures ?? [];
  const named = new Set<string>();
  const given = [...before, ...files.map((one): GivenPicture => ({ ...AS_GIVEN, ...one }))];
  const pictures = (flat && !before.length ? [...given, { ...AS_GIVEN, ...flat }] : given).map((one) => ({
    ...one,
    name: unlike(one.name, named),
  }));
  const arrangement: Arrangement = {
    pictures,
    flat: flat && pictures.length > 2 ? pictures[pictures.length - 1].name : null,
    pair: flat !== null && pictures.length === 2,
  };
  // One bad file takes none along: what was arranged before stands again.
  if (await readArrangement(arrangement)) return;
  if (prior === null) forget();
  else await readArrangement(prior);
}

const AS_GIVEN = { mode: 'src-over', opacity: 1, visible: true } as const;

/** Two pictures of one name are told apart. */
function unlike(file: string, named: Set<string>): string {
  const name = file.replace(/\.png$/i, '');
  let told = name;
  for (let k = 2; named.has(told); k++) told = `${name} ${k}`;
  named.add(told);
  return told;
}

/** What an arrangement asks the worker to hold; null while there is nothing to open. */
function sourceOf({ pictures, flat, pair }: Arrangement): LayerSource | null {
  if (pair && pictures.length === 2) return { kind: 'pair', without: pictures[0], shown: pictures[1] };
  const layers = pictures.filter(({ name }) => name !== flat);
  if (layers.length === 0) return null;
  return { kind: 'pictures', pictures: layers, flat: pictures.find(({ name }) => name === flat) ?? null };
}

/**
 * Reads what has been arranged. A pair is weighed at once; layers wait until they are in order.
 *
 * @returns false when one of them can't be read
 */
async function readArrangement(arrangement: Arrangement): Promise<boolean> {
  const source = sourceOf(arrangement);
  if (source !== null) return take(source, ownName(), arrangement);
  forget();
  return true;
}

/** Changes the order, a mode, what is hidden, or which picture shows all of them. */
export async function arrange(change: Partial<Arrangement>): Promise<void> {
  const { arrangement, source, list, seen, running } = get();
  if (arrangement === null) return;
  const next = { ...arrangement, ...change };
  const wanted = sourceOf(next);
  if (!isArranged(wanted, source)) {
    await readArrangement(next);
    return;
  }
  // Reading goes on, whatever the order; what is being weighed is another picture now.
  if (running && list && get().picture) {
    layersClient.stop();
    line.clear();
  }
  set({
    arrangement: next,
    source: wanted,
    stopped: false,
    difference: null,
    ...(seen && { seen: null, plan: null }),
  });
  await look();
  await compare().catch(tellTrouble);
}
