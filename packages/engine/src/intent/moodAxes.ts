import type { MoodAxis } from './intent.ts';

/** An axis of mood as screens and sentences use it. */
export interface MoodAxisKind {
  /** Name in words. */
  readonly title: string;
  /** What its two ends are like, for "cooler than", e.g. "cooler" and "warmer". */
  readonly less: string;
  readonly more: string;
  /** What its two ends are called beside a slider. */
  readonly low: string;
  readonly high: string;
  /** Where pictures lie: the range a slider should offer. */
  readonly from: number;
  readonly to: number;
  readonly digits: number;
  readonly unit: string;
  /** Distances on softness and hue spread are felt as ratios. */
  readonly scale: 'linear' | 'ratio';
  /**
   * One step of distance: the standard deviation of the axis over 99 paintings, illustrations and photographs
   * (as a ratio for ratio scales, from its quartiles). Our default.
   */
  readonly step: number;
  /** Tolerance of a target set by hand or taken from one example. Our default: half a step. */
  readonly tolerance: number;
  /** Where the axis comes from and how far it can be trusted. */
  readonly source: string;
}

const OU = 'Ou, Luo, Woodcock & Wright 2004, on patches of single colours; here the mean over the picture';

/** The axes in the order of screens. */
export const MOOD_AXES: Readonly<Record<MoodAxis, MoodAxisKind>> = {
  warmCool: {
    title: 'warm and cool',
    less: 'cooler',
    more: 'warmer',
    low: 'cool',
    high: 'warm',
    from: -1.3,
    to: 0.9,
    digits: 2,
    unit: '',
    scale: 'linear',
    step: 0.44,
    tolerance: 0.2,
    source: OU,
  },
  heavyLight: {
    title: 'weight',
    less: 'lighter in weight',
    more: 'heavier',
    low: 'weightless',
    high: 'heavy',
    from: -1,
    to: 2.5,
    digits: 1,
    unit: '',
    scale: 'linear',
    step: 0.8,
    tolerance: 0.4,
    source: OU,
  },
  activePassive: {
    title: 'liveliness of colour',
    less: 'more passive',
    more: 'more active',
    low: 'passive',
    high: 'active',
    from: -0.5,
    to: 1.4,
    digits: 2,
    unit: '',
    scale: 'linear',
    step: 0.37,
    tolerance: 0.2,
    source: `${OU}; it hardly tells a fog from a night, so that no finding comes from it alone`,
  },
  key: {
    title: 'key',
    less: 'darker',
    more: 'lighter',
    low: 'dark',
    high: 'light',
    from: 5,
    to: 90,
    digits: 0,
    unit: 'L*',
    scale: 'linear',
    step: 15,
    tolerance: 8,
    source: 'area mean of CIELAB L* in the whole view',
  },
  contrast: {
    title: 'contrast of values',
    less: 'softer in contrast',
    more: 'stronger in contrast',
    low: 'close values',
    high: 'far values',
    from: 5,
    to: 90,
    digits: 0,
    unit: 'L*',
    scale: 'linear',
    step: 16,
    tolerance: 8,
    source: '5th to 95th percentile of CIELAB L* in the whole view',
  },
  hueSpread: {
    title: 'spread of hues',
    less: 'poorer in hues',
    more: 'richer in hues',
    low: 'one hue',
    high: 'many hues',
    from: 1,
    to: 8,
    digits: 1,
    unit: 'hues',
    scale: 'ratio',
    step: 1.65,
    tolerance: 0.5,
    source: 'effective number of hues, see hue spread',
  },
  softness: {
    title: 'softness of edges',
    less: 'harder in its edges',
    more: 'softer in its edges',
    low: 'hard edges',
    high: 'soft edges',
    from: 1.5,
    to: 20,
    digits: 1,
    unit: '‰',
    scale: 'ratio',
    step: 1.5,
    tolerance: 1,
    source: 'width of the edges in thousandths of the long side, after Zhuo & Sim 2011',
  },
};

export const MOOD_AXIS_NAMES = Object.keys(MOOD_AXES) as MoodAxis[];
