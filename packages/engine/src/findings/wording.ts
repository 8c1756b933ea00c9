const COUNTS = [
  'no',
  'one',
  'two',
  'three',
  'four',
  'five',
  'six',
  'seven',
  'eight',
  'nine',
  'ten',
  'eleven',
  'twelve',
];

/** A small number as a word, for sentences; digits from thirteen on. */
export function countWord(n: number): string {
  return COUNTS[n] ?? String(n);
}

/** The unit as it follows a number, on the same line: a degree stands close to it, others after a space. */
export function unitAfter(unit: string): string {
  return unit === '' || unit === '°' ? unit : `\u00a0${unit}`;
}

/** "a", "a and b", "a, b and c". */
export function listOf(items: readonly string[]): string {
  if (items.length < 2) return items[0] ?? '';
  return `${items.slice(0, -1).join(', ')} and ${items[items.length - 1]}`;
}

/** A share 0…1 as a whole percentage; "under 1 %" for what is there but rounds to nothing. */
export function percent(share: number): string {
  const p = Math.round(100 * share);
  return p === 0 && share > 0 ? 'under 1 %' : `${p} %`;
}

/** A share beside the limit it is held to: with so many more digits that they don't look alike. */
export function percentBeside(share: number, limit: number): string {
  for (let digits = 0; digits < 3; digits++) {
    const [own, other] = [share, limit].map((v) => (100 * v).toFixed(digits));
    if (own !== other) return digits === 0 ? percent(share) : `${own} %`;
  }
  return percent(share);
}

/** The sentence with its first letter large. */
export function sentence(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
