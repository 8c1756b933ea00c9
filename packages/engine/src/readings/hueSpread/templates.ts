import { STEPS } from './histogram.ts';

/**
 * The hue templates of Cohen-Or, Sorkine, Gal, Leyvand & Xu 2006, "Color harmonization", ACM Trans. Graphics 25/3:
 * sectors as [middle, width] in degrees. The paper turns them on HSV hue; here they lie on OKLCh hue.
 */
export const TEMPLATES = {
  i: [[0, 18]],
  V: [[0, 93.6]],
  L: [
    [0, 18],
    [90, 79.2],
  ],
  I: [
    [0, 18],
    [180, 18],
  ],
  T: [[0, 180]],
  Y: [
    [0, 93.6],
    [180, 18],
  ],
  X: [
    [0, 93.6],
    [180, 93.6],
  ],
} as const satisfies Record<string, readonly (readonly [number, number])[]>;

export type TemplateName = keyof typeof TEMPLATES;

/** The templates in words, the narrowest first. */
export const TEMPLATE_WORDS: Readonly<Record<TemplateName, string>> = {
  i: 'one hue',
  I: 'two opposite hues',
  V: 'neighbouring hues',
  L: 'one hue and its neighbours a quarter turn on',
  Y: 'neighbouring hues and one opposite',
  T: 'half the circle',
  X: 'two opposite families',
};

/** How a picture's hues lie on a template. */
export interface TemplateFit {
  readonly name: TemplateName;
  /** Turn of the template in degrees: the middle of its first sector. */
  readonly turn: number;
  /** Mean distance of the colour weight from the template, degrees. */
  readonly outside: number;
}

/** A template holds a picture whose colour weight lies within this many degrees of it on average. Our default. */
export const HOLDS = 3;

/** Degrees from each step to a template that is not turned, twice around the circle. */
const DISTANCES = Object.fromEntries(
  Object.entries(TEMPLATES).map(([name, sectors]) => [
    name,
    Float64Array.from({ length: 2 * STEPS }, (_, h) =>
      Math.min(
        ...sectors.map(([middle, width]) =>
          Math.max(0, Math.abs(((h - middle + 900) % 360) - 180) - width / 2),
        ),
      ),
    ),
  ]),
) as Record<TemplateName, Float64Array>;

/** The best turn of every template, the narrowest template first. */
export function fitTemplates(weight: Float64Array): TemplateFit[] {
  return (Object.keys(TEMPLATE_WORDS) as TemplateName[]).map((name) => {
    const distance = DISTANCES[name];
    let outside = Number.POSITIVE_INFINITY;
    let turn = 0;
    for (let t = 0; t < STEPS; t++) {
      let sum = 0;
      for (let h = 0, at = STEPS - t; h < STEPS; h++, at++) sum += weight[h] * distance[at];
      if (sum < outside) {
        outside = sum;
        turn = t;
      }
    }
    return { name, turn: turn + 0.5, outside };
  });
}

/** The narrowest template that holds the picture, or null. */
export function templateOf(weight: Float64Array): TemplateFit | null {
  return fitTemplates(weight).find((fit) => fit.outside <= HOLDS) ?? null;
}
