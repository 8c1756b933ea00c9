import type { Finding, Place } from '../findings/finding.ts';
import { listOf } from '../findings/wording.ts';
import { deliverySpace } from '../readings/headroom/headroom.ts';
import type { ReadingId } from '../readings/reading.ts';
import { recipeOf, type Slot, sparing, stepsAt } from './slots.ts';
import type { ProposalRequest } from './types.ts';
import { readEdited } from './verify.ts';

/** Most steps that one proposal relights with: what is left is smaller than anyone sees. */
const MOST_STEPS = 4;
/** Places whose gains differ by less than this in every channel share a step (a tenth is hardly seen in shade). */
const ALIKE = 0.1;
/** Gains beyond this would tear the paint apart. */
const MOST_GAIN = 3;

type Gains = readonly [number, number, number];

interface Relit {
  readonly places: readonly Place[];
  readonly gains: Gains;
  readonly share: number;
  readonly key: string;
}

/** Findings of the light must weigh less by this much, or the relighting is not worth its steps. */
const BETTER = 0.02;

/**
 * The relighting that suits a picture; none when the light, read again after it, is found wanting as much as before.
 * Yields the share that is done.
 */
export function* relightingHelps(request: ProposalRequest): Generator<number, Slot[]> {
  const slots = relightSlots(request).map((slot) => sparing(slot, request));
  if (slots.length === 0) return [];
  yield 0;
  const recipe = recipeOf(stepsAt(slots, []));
  const space = deliverySpace(request.input.intent);
  const only = new Set<ReadingId>(['light']);
  const seen = yield* readEdited(request, recipe, space, request.input.views.middle, only);
  const wanting = (findings: readonly Finding[]): number =>
    findings.reduce((sum, f) => sum + (f.reading === 'light' ? f.severity : 0), 0);
  return wanting(seen.findings) > wanting(request.examination.findings) - BETTER ? [] : slots;
}

/** Steps for the places that ignore the light of the scene and whose own colour under it is known. */
function relightSlots({ examination }: ProposalRequest): Slot[] {
  const groups: Relit[] = [];
  for (const finding of examination.findings)
    if (finding.reading === 'light')
      for (const place of finding.places ?? []) add(groups, place, finding.key);
  return groups
    .sort((a, b) => b.share - a.share)
    .slice(0, MOST_STEPS)
    .map(({ places, gains, key }) => ({
      kind: 'relight',
      data: { gains: [rounded(gains[0]), rounded(gains[1]), rounded(gains[2])] },
      area: {
        parts: places.map(({ outline }) => ({ joining: 'add', kind: 'outline', outlines: [outline!] })),
        soften: 0.004,
      },
      unknowns: [],
      fixed: { amount: 100 },
      serves: key,
      where: listOf([...new Set(places.map(whereabouts))]),
    }));
}

function add(groups: Relit[], place: Place, key: string): void {
  const gains = place.outline && gainsOf(place);
  if (!gains) return;
  const at = groups.findIndex(
    (g) => g.key === key && g.gains.every((v, c) => Math.abs(Math.log(v / gains[c])) < ALIKE),
  );
  if (at < 0) {
    groups.push({ places: [place], gains, share: place.share, key });
    return;
  }
  const { places, gains: old, share } = groups[at];
  const part = place.share / (share + place.share || 1);
  const mixed = (c: number): number => old[c] ** (1 - part) * gains[c] ** part;
  groups[at] = {
    places: [...places, place],
    gains: [mixed(0), mixed(1), mixed(2)],
    share: share + place.share,
    key,
  };
}

const rounded = (v: number): number => Number(v.toFixed(4));

/** "at the upper left". */
function whereabouts({ x, y, width, height }: Place): string {
  const third = (v: number, names: readonly [string, string, string]): string =>
    names[v < 0.36 ? 0 : v > 0.64 ? 2 : 1];
  const row = third(y + height / 2, ['upper', '', 'lower']);
  const column = third(x + width / 2, ['left', '', 'right']);
  if (row === '' && column === '') return 'in the middle';
  if (row === '') return `at the ${column}`;
  return column === '' ? `in the ${row} middle` : `at the ${row} ${column}`;
}

/** The colour a place should have over the one it has, at the luminance it has: values stay, only colour changes. */
function gainsOf({ swatches = [] }: Place): [number, number, number] | null {
  const now = swatches.find((s) => s.label === 'now')?.rgb;
  const should = swatches.at(-1)?.rgb;
  if (!now || !should || should === now || [...now, ...should].some((v) => !(v > 0))) return null;
  const raw = should.map((v, c) => v / now[c]);
  const y = [0.2126, 0.7152, 0.0722];
  const before = now.reduce((sum, v, c) => sum + y[c] * v, 0);
  const after = now.reduce((sum, v, c) => sum + y[c] * v * raw[c], 0);
  const [r, g, b] = raw.map((v) =>
    Number(Math.min(MOST_GAIN, Math.max(1 / MOST_GAIN, (v * before) / after)).toFixed(4)),
  );
  return [r, g, b];
}
