import {
  BLEND_MODES,
  countWord,
  type FlattenStage,
  IDLE_WORDS,
  listOf,
  percent,
  sentence,
} from '@halflight/engine';
import { number } from '../../parts/ReadingDetails.tsx';
import type { ListedLayer, SeenLayer, SeenLayers } from '../../workers/layers/desk.ts';

/** A part of a row of the list, for those who hear it. */
export const CELL = { role: 'gridcell' } as const;

/** A layer in the list: as it stands in the file, with how deep in groups it lies. */
export interface Row {
  readonly layer: ListedLayer;
  readonly depth: number;
  /** Path of the group that it is in. */
  readonly parent: string | null;
}

/** All layers, the topmost first, each group before what is in it. */
export function rowsOf(layers: readonly ListedLayer[], depth = 0, parent: string | null = null): Row[] {
  return [...layers]
    .reverse()
    .flatMap((layer) => [{ layer, depth, parent }, ...rowsOf(layer.children, depth + 1, layer.path)]);
}

/** Which layers the list shows. */
export type Filter = 'all' | 'nothing' | 'one' | 'options' | 'effects';

/** Whether a layer belongs to what is asked for. */
export function passes(filter: Filter, path: string, seen: SeenLayers | null): boolean {
  if (filter === 'all' || seen === null) return true;
  const layer = seen.layers.find((one) => one.path === path);
  if (filter === 'nothing') return layer?.redundant === true;
  if (filter === 'one') return runsOf(seen).some((run) => run.includes(path));
  if (filter === 'options') return seen.options.some((set) => set.includes(path));
  return layer?.kind === 'effect' && !layer.redundant;
}

/** Neighbours that can be one, apart from those that show nothing: these go altogether. */
export function runsOf({ merges, layers }: SeenLayers): readonly (readonly string[])[] {
  const idle = new Set(layers.filter(({ redundant }) => redundant).map(({ path }) => path));
  return merges.map((run) => run.filter((path) => !idle.has(path))).filter((run) => run.length > 1);
}

export const FILTERS: readonly (readonly [Filter, string])[] = [
  ['all', 'all layers'],
  ['nothing', 'those that show nothing'],
  ['one', 'those that can be one'],
  ['options', 'those between which to choose'],
  ['effects', 'the effects'],
];

/** How much a difference over the whole view is, by CIEDE2000 at most places; 1 is just seen. */
export function worthWords({ mean, p95, redundant }: Pick<SeenLayer, 'mean' | 'p95' | 'redundant'>): string {
  if (redundant) return 'shows nothing';
  if (mean >= 10) return 'carries the picture';
  if (p95 < 0.5) return 'seen only up close';
  if (p95 < 1) return 'hardly seen';
  if (p95 < 3) return 'seen';
  return p95 < 10 ? 'plainly seen' : 'strongly seen';
}

/** The line under a layer's name. */
export function rowWords({ mode, opacity, visible }: ListedLayer, layer: SeenLayer | undefined): string {
  const how = [
    ...(mode ? [mode] : []),
    ...(opacity < 1 ? [`${Math.round(100 * opacity)} %`] : []),
    ...(visible ? [] : ['hidden']),
  ];
  if (!layer) return how.join(', ');
  return [
    ...(visible ? [worthWords(layer)] : []),
    ...(visible && !layer.redundant ? [number(layer.mean, 1)] : []),
    ...(layer.kind === 'effect' && !layer.redundant ? ['effect'] : []),
    ...how,
  ].join(', ');
}

/** What a layer is worth, in sentences. */
export function worthSentence({ mean, p95, areaShare, redundant, why }: SeenLayer, visible: boolean): string {
  const area =
    areaShare > 0 ? `It touches ${percent(areaShare)} of the picture.` : 'Nothing is painted on it.';
  if (visible && mean === 0 && !redundant) return `It was hidden when the layers were weighed. ${area}`;
  if (!visible) return `It is hidden, so that nothing changes without it. ${area}`;
  if (redundant)
    return `Without it nothing changes, even up close${why === 'clear' || why === 'unseen' ? `: it is ${IDLE_WORDS[why]}` : ''}. ${area}`;
  const places = p95 < 0.05 ? 'at most places not at all' : `at most places by less than ${number(p95, 1)}`;
  return `Without it the whole picture changes by ${number(mean, 1)} on average, ${places} (CIEDE2000; 1 is just seen). ${area}`;
}

/** What stands open, as one sentence. */
export function leadSentence(list: readonly ListedLayer[], seen: SeenLayers | null, left: number): string {
  const count = rowsOf(list).filter(({ layer }) => !layer.group).length;
  const layers = `${sentence(countWord(count))} ${count === 1 ? 'layer' : 'layers'}`;
  if (seen === null) return `${layers}.`;
  const rows = rowsOf(list);
  const painted = new Set(rows.flatMap(({ layer }) => (layer.group ? [] : [layer.path])));
  const shown = new Set(rows.flatMap(({ layer }) => (layer.visible ? [layer.path] : [])));
  const idle = seen.layers.filter(({ path, redundant }) => redundant && painted.has(path)).length;
  const effects = seen.layers.filter(
    ({ path, kind, redundant }) => kind === 'effect' && !redundant && painted.has(path) && shown.has(path),
  ).length;
  const runs = runsOf(seen);
  const parts = [
    ...(idle > 0 ? [`${countWord(idle)} ${idle === 1 ? 'shows' : 'show'} nothing`] : []),
    ...(seen.options.length > 0
      ? [`${countWord(seen.options.length)} ${seen.options.length === 1 ? 'choice is' : 'choices are'} open`]
      : []),
    ...(runs.length > 0
      ? [`${countWord(runs.flat().length)} can be ${runs.length === 1 ? 'one' : countWord(runs.length)}`]
      : []),
    ...(effects > 0 ? [`${countWord(effects)} ${effects === 1 ? 'is an effect' : 'are effects'}`] : []),
  ];
  const after = left < count ? ` After what you decided ${countWord(left)} are left.` : '';
  if (parts.length === 0) return `${layers}, and every one counts.${after}`;
  return `${layers}: ${listOf(parts)}.${after}`;
}

/** Layers that show nothing, by why that is. */
export function idleWords(layers: readonly SeenLayer[]): string {
  const reasons = [...new Set(layers.map(({ why }) => why))].filter((why) => why !== null);
  return reasons
    .map(
      (why) =>
        `${quoted(layers.filter((one) => one.why === why).map(({ path }) => path))}: ${IDLE_WORDS[why]}`,
    )
    .join('; ');
}

/** “a”, “b” and “c”; many are counted. */
export function quoted(paths: readonly string[], last: 'and' | 'or' = 'and'): string {
  const names = paths.map((path) => `“${path}”`);
  if (last === 'or') return names.join(' or ');
  return names.length > 6 ? `${listOf(names.slice(0, 5))} and ${names.length - 5} more` : listOf(names);
}

/** What a stage of the plan loses. */
export function lostWords({ lost }: FlattenStage, depth: number): string {
  const values = depth === 16 ? lost.codes / 257 : lost.codes;
  const parts = [
    values <= 1
      ? 'The picture stays the same.'
      : lost.p95 < 0.5
        ? `The picture changes by up to ${Math.ceil(values)} code values of 255, which is not seen from a distance.`
        : `The picture changes by ${number(lost.mean, 1)} on average (CIEDE2000; 1 is just seen).`,
    ...(lost.options.length > 0 ? [`${quoted(lost.options)} can’t be chosen any more.`] : []),
    ...(lost.effects.length > 0 ? [`${quoted(lost.effects)} can’t be turned up and down any more.`] : []),
  ];
  return parts.join(' ');
}

/** Modes that a picture can be given, by the name of OpenRaster. */
export const MODES: readonly (readonly [string, string])[] = [
  ['src-over', 'normal'],
  ...BLEND_MODES.filter((mode) => mode !== 'normal').map((mode) => [mode, mode] as const),
  ['plus', 'lighter'],
];
