import { type ColourSpace, hexIn, type Place, sentence } from '@halflight/engine';

/** One line per place with its colours, e.g. "Middle left, 2 %: lit #c8b090, now #3a3430, in this light #2e3348". */
export function colourLines(places: readonly Place[], space: ColourSpace): string[] {
  return places.flatMap((place) => {
    if (!place.swatches?.length) return [];
    const colours = place.swatches.map((swatch) => `${swatch.label} ${hexIn(swatch.rgb, space)}`).join(', ');
    return [`${sentence(whereabouts(place))}, ${share(place)}: ${colours}`];
  });
}

/** "upper left", "middle", "lower right": the ninth of the picture that the middle of a place lies in. */
function whereabouts({ x, y, width, height }: Place): string {
  const third = (v: number): 0 | 1 | 2 => (v < 1 / 3 ? 0 : v < 2 / 3 ? 1 : 2);
  const row = ['upper', 'middle', 'lower'][third(y + height / 2)];
  const column = ['left', 'middle', 'right'][third(x + width / 2)];
  if (column === 'middle') return row;
  return `${row} ${column}`;
}

function share(place: Place): string {
  const percent = 100 * place.share;
  return percent < 1 ? `${percent.toFixed(1)} %` : `${Math.round(percent)} %`;
}
