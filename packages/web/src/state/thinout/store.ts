import type { FlattenStage, StageName } from '@halflight/engine';
import { create } from 'zustand';
import { type Choices, layerHistory, NO_CHOICES } from '../../document/layers.ts';
import type { OpenedPicture } from '../../picture/desk.ts';
import type {
  Difference,
  GivenPicture,
  LayerSource,
  ListedPicture,
  MergeLook,
  SeenLayers,
} from '../../workers/layers/desk.ts';
import type { Line } from './line.ts';

/** Pictures given one by one, as they are being arranged. */
export interface Arrangement {
  /** Lowest first. */
  readonly pictures: readonly GivenPicture[];
  /** The name of the one that shows all of them together. */
  readonly flat: string | null;
  /** Two flat pictures: they are the same with and without one layer, and not layers themselves. */
  readonly pair: boolean;
}

export type LayerHistory = ReturnType<typeof layerHistory.begin>;

/** The layers that are looked at, and what was decided about them. */
export interface ThinoutState {
  /** The hash of the version whose layers these are, a name of its own for those of no work; null without layers. */
  readonly of: string | null;
  /** The work on whose screen they were opened. */
  readonly work: string | null;
  /** What is looked at now; the worker may still hold what was before it (`hold`). */
  readonly source: LayerSource | null;
  readonly arrangement: Arrangement | null;
  readonly list: ListedPicture | null;
  /** Paths of the layers that were read so far. */
  readonly read: ReadonlySet<string>;
  /** All layers put together, as it was read. */
  readonly picture: OpenedPicture | null;
  readonly seen: SeenLayers | null;
  /** What was decided when they were weighed. */
  readonly weighedAs: Choices;
  /** What runs: reading, weighing. */
  readonly running: Line | null;
  /** It was stopped before it was done. */
  readonly stopped: boolean;
  readonly history: LayerHistory;
  /** Paths that are shown or hidden only for a look. */
  readonly turned: readonly string[];
  /** The layers as they are looked at; null while they are as in the file. */
  readonly shown: ImageBitmap | null;
  readonly looking: boolean;
  /** How the pictures together differ from the flat one. */
  readonly difference: Difference | null;
  /** Neighbours made one, for a look. */
  readonly merge: ({ readonly paths: readonly string[] } & MergeLook) | null;
  /** Neighbours that are being made one. */
  readonly merging: readonly string[] | null;
  /** From keeping all to one layer; null while it is not known. */
  readonly plan: readonly FlattenStage[] | null;
  /** How far it is to be thinned out. */
  readonly stage: StageName;
  /** Path of the layer that is chosen in the list. */
  readonly chosen: string | null;
}

/** Nothing is looked at. */
export const NOTHING: ThinoutState = {
  of: null,
  work: null,
  source: null,
  arrangement: null,
  list: null,
  read: new Set(),
  picture: null,
  seen: null,
  weighedAs: NO_CHOICES,
  running: null,
  stopped: false,
  history: layerHistory.begin(NO_CHOICES),
  turned: [],
  shown: null,
  looking: false,
  difference: null,
  merge: null,
  merging: null,
  plan: null,
  // As far as nothing is seen of it and no decision is lost.
  stage: 'runs',
  chosen: null,
};

export const useThinout = create<ThinoutState>(() => NOTHING);
export const get = useThinout.getState;
export const set = useThinout.setState;
