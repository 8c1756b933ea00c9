/**
 * Times several ways of doing something in turns, so that whatever else the machine does meets all of them,
 * and gives the shortest time of each in milliseconds.
 */
export async function race<Name extends string>(
  rounds: number,
  ways: Readonly<Record<Name, () => unknown>>,
): Promise<Record<Name, number>> {
  const names = Object.keys(ways) as Name[];
  const best = Object.fromEntries(names.map((name) => [name, Number.POSITIVE_INFINITY])) as Record<
    Name,
    number
  >;
  for (let round = 0; round < rounds; round++)
    for (const name of names) {
      const start = performance.now();
      await ways[name]();
      best[name] = Math.min(best[name], performance.now() - start);
    }
  return best;
}
