/** Remembers of a picture what is needed to know it again, while its rows go by. */
export interface Witness {
  /** Sees rows `y` to `y + count`, from top to bottom. */
  see(data: Uint8Array | Uint16Array, y: number, count: number): void;
  /** True when the other saw the same code values at the same places. */
  isSame(other: Witness): boolean;
  /** True when the other saw the same picture as far as a lossy file can keep it. */
  isNear(other: Witness, depth: 8 | 16): boolean;
  readonly sum: number;
  readonly means: Float64Array;
}

/** Places a side of the coarse grid that lossy files are compared on. */
const GRID = 24;
/** Largest difference of a place of that grid, as a share of the full range. */
const LOSSY = 0.02;

/**
 * Opens a witness for a picture. Transparent places are left out of the coarse grid: lossy files forget their colour.
 *
 * @param white code value of the white that shows through where the file will have no transparency; null where it has
 */
export function openWitness(
  width: number,
  height: number,
  channels: 3 | 4,
  white: number | null = null,
): Witness {
  // Two sums after Fletcher 1982, modulo a prime, so that places count as well as values; colour channels only.
  const PRIME = 2 ** 31 - 1;
  let a = 1;
  let b = 0;
  const sums = new Float64Array(3 * GRID * GRID);
  const counts = new Float64Array(GRID * GRID);
  return {
    see(data, y, count) {
      for (let j = 0, i = 0; j < count; j++) {
        const line = Math.floor(((y + j) * GRID) / height) * GRID;
        for (let x = 0; x < width; x++, i += channels) {
          const place = line + Math.floor((x * GRID) / width);
          const cover = channels === 4 ? data[i + 3] : 1;
          const part = white === null || channels === 3 ? 1 : cover / white;
          for (let c = 0; c < channels; c++) {
            a += data[i + c] + 1;
            if (a >= PRIME) a -= PRIME;
            b += a;
            if (b >= PRIME) b -= PRIME;
          }
          if (cover === 0 && white === null) continue;
          counts[place]++;
          for (let c = 0; c < 3; c++) sums[3 * place + c] += part * data[i + c] + (1 - part) * (white ?? 0);
        }
      }
    },
    get sum() {
      return a * 2 ** 21 + (b % 2 ** 21);
    },
    get means() {
      return sums.map((sum, k) => sum / Math.max(1, counts[Math.floor(k / 3)]));
    },
    isSame(other) {
      return this.sum === other.sum && this.means.every((mean, k) => mean === other.means[k]);
    },
    isNear(other, depth) {
      const most = LOSSY * (2 ** depth - 1);
      const mine = this.means;
      return other.means.every((mean, k) => Math.abs(mean - mine[k]) <= most);
    },
  };
}
