/** How a search ends: the best point, its value, and how often the function was asked. */
export interface Minimum {
  readonly x: Float64Array;
  readonly value: number;
  readonly evaluations: number;
}

export interface NelderMeadOptions {
  /** First step along each axis; one number for all. Default 0.5. */
  readonly step?: number | readonly number[];
  /** Stop when the values of the simplex differ by less than this and … Default 1e-6. */
  readonly valueTolerance?: number;
  /** … its corners by less than this on every axis. Default 1e-4. */
  readonly pointTolerance?: number;
  /** Most evaluations of the function. Default 200 per axis. */
  readonly maxEvaluations?: number;
}

/**
 * Smallest value of a function of a few numbers, without derivatives.
 *
 * The simplex search of Nelder & Mead 1965 ("A simplex method for function minimization", Computer Journal 7)
 * with reflection 1, expansion 2, contraction ½ and shrinking ½. Deterministic. A function value that is not
 * a number counts as infinitely bad.
 */
export function nelderMead(
  f: (x: Float64Array) => number,
  start: ArrayLike<number>,
  options: NelderMeadOptions = {},
): Minimum {
  const n = start.length;
  const valueTolerance = options.valueTolerance ?? 1e-6;
  const pointTolerance = options.pointTolerance ?? 1e-4;
  const maxEvaluations = options.maxEvaluations ?? 200 * n;
  let evaluations = 0;
  const ask = (x: Float64Array): number => {
    evaluations++;
    const v = f(x);
    return Number.isNaN(v) ? Number.POSITIVE_INFINITY : v;
  };

  let simplex = Array.from({ length: n + 1 }, (_, k) => {
    const x = Float64Array.from(start);
    if (k > 0) x[k - 1] += typeof options.step === 'object' ? options.step[k - 1] : (options.step ?? 0.5);
    return { x, value: ask(x) };
  });
  const byValue = (a: { value: number }, b: { value: number }) => a.value - b.value;
  const centre = new Float64Array(n);
  const towards = (t: number) => {
    const worst = simplex[n].x;
    const x = centre.map((c, d) => c + t * (c - worst[d]));
    return { x, value: ask(x) };
  };

  simplex.sort(byValue);
  while (evaluations < maxEvaluations) {
    const best = simplex[0];
    const worst = simplex[n];
    let spread = 0;
    for (const corner of simplex) {
      for (let d = 0; d < n; d++) spread = Math.max(spread, Math.abs(corner.x[d] - best.x[d]));
    }
    if (worst.value - best.value <= valueTolerance && spread <= pointTolerance) break;

    centre.fill(0);
    for (let k = 0; k < n; k++) for (let d = 0; d < n; d++) centre[d] += simplex[k].x[d] / n;
    const reflected = towards(1);
    let next = reflected;
    if (reflected.value < best.value) {
      const expanded = towards(2);
      if (expanded.value < reflected.value) next = expanded;
    } else if (reflected.value >= simplex[n - 1].value) {
      const contracted = reflected.value < worst.value ? towards(0.5) : towards(-0.5);
      if (contracted.value < Math.min(reflected.value, worst.value)) next = contracted;
      else {
        simplex = simplex.map((corner, k) => {
          if (k === 0) return corner;
          const x = corner.x.map((v, d) => best.x[d] + 0.5 * (v - best.x[d]));
          return { x, value: ask(x) };
        });
        simplex.sort(byValue);
        continue;
      }
    }
    simplex[n] = next;
    simplex.sort(byValue);
  }
  return { ...simplex[0], evaluations };
}
