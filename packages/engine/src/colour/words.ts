// Names of OKLCh hues for sentences; borders are our default, set by eye on a ring of equal lightness (0.7) and chroma (0.12).
const HUES: readonly (readonly [from: number, name: string])[] = [
  [0, 'pink'],
  [15, 'red'],
  [42, 'orange'],
  [75, 'ochre'],
  [95, 'yellow'],
  [118, 'yellow-green'],
  [135, 'green'],
  [165, 'sea green'],
  [190, 'turquoise'],
  [220, 'sky blue'],
  [245, 'blue'],
  [280, 'violet-blue'],
  [298, 'violet'],
  [322, 'purple'],
  [345, 'pink'],
];

/** A painter's word for an OKLCh hue in degrees. */
export function hueName(hue: number): string {
  const h = ((hue % 360) + 360) % 360;
  let name = HUES[0][1];
  for (const [from, word] of HUES) if (h >= from) name = word;
  return name;
}

/**
 * A painter's word for an OKLCh colour: the hue's name, or the word that a dark or pale version of it goes by.
 *
 * @param L OKLab lightness 0…1
 */
export function colourName(L: number, chroma: number, hue: number): string {
  const h = ((hue % 360) + 360) % 360;
  if (h >= 30 && h < 95 && L < 0.62 && chroma < 0.13) return 'brown';
  if (h >= 95 && h < 122 && L < 0.72) return 'olive';
  if ((h >= 345 || h < 30) && L > 0.75) return 'rose';
  return hueName(h);
}
