/**
 * The known name that a misspelt one may stand for, or null: at most two letters changed, added, left out or
 * swapped, and fewer than a third of its length (optimal string alignment, Damerau 1964).
 */
export function nearMiss(name: string, known: readonly string[]): string | null {
  let best: string | null = null;
  let least = 3;
  for (const other of known) {
    const d = editDistance(name.toLowerCase(), other.toLowerCase());
    if (d < least && 3 * d < Math.max(name.length, other.length)) {
      least = d;
      best = other;
    }
  }
  return best;
}

function editDistance(a: string, b: string): number {
  let before: number[] = [];
  let row = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1] ? 0 : 1;
      let d = Math.min(row[j] + 1, next[j - 1] + 1, row[j - 1] + same);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        d = Math.min(d, before[j - 2] + 1);
      next.push(d);
    }
    before = row;
    row = next;
  }
  return row[b.length];
}
