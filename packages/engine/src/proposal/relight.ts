import type { Finding, Place } from '../findings/finding.ts';
import type { Slot } from './slots.ts';
import type { ProposalRequest } from './types.ts';

/** Most places that one proposal relights: what is left is smaller than anyone sees. */
const MOST_PLACES = 6;
/** Gains beyond this would tear the paint apart. */
const MOST_GAIN = 3;

/** A step for every place that ignores the light of the scene and whose own colour under it is known. */
export function relightSlots({ examination }: ProposalRequest): Slot[] {
  const places = examination.findings.filter((f) => f.reading === 'light').flatMap(relightable);
  return places
    .sort((a, b) => b.share - a.share)
    .slice(0, MOST_PLACES)
    .map(({ outline, gains, index }) => ({
      kind: 'relight',
      data: { gains },
      area: { parts: [{ joining: 'add', kind: 'outline', outlines: [outline] }], soften: 0.004 },
      unknowns: [],
      fixed: { amount: 100 },
      where: index,
    }));
}

interface Relightable {
  readonly share: number;
  readonly outline: readonly number[];
  readonly gains: readonly [number, number, number];
  readonly index: string;
}

function relightable(finding: Finding): Relightable[] {
  return (finding.places ?? []).flatMap((place) => {
    const gains = place.outline && gainsOf(place);
    return gains ? [{ share: place.share, outline: place.outline!, gains, index: finding.key }] : [];
  });
}

/** The colour a place should have over the one it has, at the luminance it has: values stay, only colour changes. */
export function gainsOf({ swatches = [] }: Place): [number, number, number] | null {
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
