import type { Examination, Place } from '@halflight/engine';

/** The places that a guide layer shows: those with an outline and the colour they should have. */
export function repaintPlaces({ findings }: Examination): Place[] {
  return findings
    .flatMap((finding) => finding.places ?? [])
    .filter(({ outline, swatches }) => outline && swatches && swatches.length > 0);
}
