/** Remembers of a picture what is needed to know it again, while its rows go by. */
export interface Witness {
  /** Sees rows `y` to `y + count`, from top to bottom. */
  see(data: Uint8Array | Uint16Array, y: number, count: number): void;
  /** True when the other saw the same code values at the same places. */
  isSame(other: Witness): boolean;
  /**
   * True when the other saw the same picture as far as a lossy file can keep it.
   *
   * @param quality 1…100, as it was written: coarse files lose more
   */
  isNear(other: Witness, depth: 8 | 16, quality?: number): boolean;
  readonly sum: number;
  readonly means: Float64Array;
}

/** How the last channel is to be seen. */
export interface WitnessOptions {
  /** True when it is transparency: colours of clear places are then nobody's. */
  readonly alpha?: boolean;
  /**
   * Code value of the white that shows through, where rows with transparency go into a file without it: the means are
   * then those of the file. Only `isNear` is of use then.
   */
  readonly white?: number | null;
}

/** At most so many places a side has the coarse grid that lossy files are compared on … */
const MOST = 24;
/** … each of at least so many pixels a side: lossy files keep means, not pixels. */
const LEAST_SIDE = 32;
/** Largest difference of a place of that grid, as a share of the full range. */
const LOSSY = 0.02;
/** Modulus of the sums: a prime below 2³¹. */
const PRIME = 2 ** 31 - 1;

/**
 * Opens a witness for a picture: two running sums over every sample (Fletcher 1982, modulo a prime, so that places
 * count as well as values) and the means of up to 24 × 24 places.
 */
export function openWitness(
  width: number,
  height: number,
  channels: 3 | 4,
  { alpha = false, white = null }: WitnessOptions = {},
): Witness {
  const colours = alpha ? channels - 1 : channels;
  const across = Math.min(MOST, Math.max(1, Math.floor(width / LEAST_SIDE)));
  const down = Math.min(MOST, Math.max(1, Math.floor(height / LEAST_SIDE)));
  let a = 1;
  let b = 0;
  const sums = new Float64Array(colours * across * down);
  const counts = new Float64Array(across * down);
  const witness: Witness = {
    see(data, y, count) {
      for (let j = 0, i = 0; j < count; j++) {
        const line = Math.floor(((y + j) * down) / height) * across;
        for (let x = 0; x < width; x++, i += channels) {
          const clear = alpha && data[i + channels - 1] === 0;
          for (let c = 0; c < channels; c++) {
            a += (clear ? 0 : data[i + c]) + 1;
            if (a >= PRIME) a -= PRIME;
            b += a;
            if (b >= PRIME) b -= PRIME;
          }
          if (clear && white === null) continue;
          const place = line + Math.floor((x * across) / width);
          counts[place]++;
          const cover = white === null || !alpha ? 1 : data[i + channels - 1] / white;
          const ground = white === null ? 0 : (1 - cover) * white;
          for (let c = 0; c < colours; c++) sums[colours * place + c] += cover * data[i + c] + ground;
        }
      }
    },
    get sum() {
      return a * 2 ** 21 + (b % 2 ** 21);
    },
    get means() {
      return sums.map((sum, k) => sum / Math.max(1, counts[Math.floor(k / colours)]));
    },
    isSame: (other) => witness.sum === other.sum && witness.means.every((mean, k) => mean === other.means[k]),
    isNear(other, depth, quality = 100) {
      const coarse = Math.max(0, 50 - quality) / 50;
      const most = LOSSY * (1 + 4 * coarse) * (2 ** depth - 1);
      const theirs = other.means;
      return (
        theirs.length === sums.length && witness.means.every((mean, k) => Math.abs(mean - theirs[k]) <= most)
      );
    },
  };
  return witness;
}

/** What a witness sees of a whole picture. */
export function witnessOf(
  picture: {
    readonly width: number;
    readonly height: number;
    readonly data: Uint8Array | Uint16Array;
  },
  channels: 3 | 4,
  alpha: boolean,
): Witness {
  const witness = openWitness(picture.width, picture.height, channels, { alpha });
  witness.see(picture.data, 0, picture.height);
  return witness;
}
