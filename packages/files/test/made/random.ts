/** Seeded numbers 0…1 (linear congruential, constants of Numerical Recipes), so that fixtures never change. */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}
