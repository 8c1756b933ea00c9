import type { Place } from './finding.ts';

/** The places that a guide layer shows: those of findings that have an outline and the colour they should have. */
export function repaintPlaces(findings: readonly { readonly places?: readonly Place[] }[]): Place[] {
  return findings
    .flatMap(({ places = [] }) => places)
    .filter(({ outline, swatches }) => outline && swatches && swatches.length > 0);
}
