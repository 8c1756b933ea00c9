/** Fixed pseudo-random numbers 0…1 (Marsaglia 2003, "Xorshift RNGs", 32 bits 13-17-5). */
export function randomNumbers(seed: number): () => number {
  let x = seed | 1;
  return () => {
    x ^= x << 13;
    x ^= x >>> 17;
    x ^= x << 5;
    return (x >>> 0) / 2 ** 32;
  };
}
