import type { AxisTarget, MoodTargets } from './intent.ts';

/** A painter's word for a mood with its place on the axes. */
export interface MoodWord {
  readonly word: string;
  /** Why it stands where it does, one sentence. */
  readonly sentence: string;
  readonly axes: MoodTargets;
}

const at = (value: number, tolerance: number): AxisTarget => ({ at: value, tolerance });

/**
 * Our default places of mood words, set by eye on 99 paintings, illustrations and photographs; the artist may move
 * every one. No paper stands behind them: words mean what their user means.
 */
export const MOOD_WORDS: readonly MoodWord[] = [
  {
    word: 'still',
    sentence: 'Nothing calls: few hues, values that lie near each other, soft passages.',
    axes: {
      contrast: at(36, 12),
      hueSpread: at(1.6, 0.6),
      softness: at(6, 3),
      activePassive: at(-0.1, 0.25),
    },
  },
  {
    word: 'serene',
    sentence: 'Still, but light and open: cool, high in key, nothing heavy.',
    axes: { warmCool: at(-0.7, 0.3), key: at(60, 10), contrast: at(38, 12), hueSpread: at(1.8, 0.6) },
  },
  {
    word: 'hushed',
    sentence: 'As if sound were taken away: dark, close values, soft edges, no loud colour.',
    axes: {
      key: at(34, 9),
      contrast: at(36, 12),
      softness: at(6, 3),
      hueSpread: at(1.5, 0.5),
      activePassive: at(-0.05, 0.3),
    },
  },
  {
    word: 'tender',
    sentence: 'Light and near warm, pale rather than strong, with gentle steps of value and soft edges.',
    axes: {
      warmCool: at(-0.2, 0.3),
      key: at(64, 10),
      contrast: at(34, 12),
      softness: at(5, 2.5),
      activePassive: at(0, 0.3),
    },
  },
  {
    word: 'dreamy',
    sentence: 'Edges dissolve and hues pass into each other; nothing is quite dark.',
    axes: { softness: at(10, 5), key: at(56, 12), contrast: at(38, 14), hueSpread: at(2.5, 0.8) },
  },
  {
    word: 'airy',
    sentence: 'Weightless: most of the picture is light, with room between the values.',
    axes: { heavyLight: at(-0.5, 0.4), contrast: at(36, 14), warmCool: at(-0.6, 0.35) },
  },
  {
    word: 'sunny',
    sentence: 'Light and warm, with real shade beside it.',
    axes: { warmCool: at(0.05, 0.3), key: at(62, 9), contrast: at(52, 14) },
  },
  {
    word: 'hopeful',
    sentence: 'A lighter and warmer place against a cool rest: middle key, clear contrast.',
    axes: { warmCool: at(-0.25, 0.25), key: at(56, 9), contrast: at(54, 12) },
  },
  {
    word: 'cosy',
    sentence: 'Warm and rather dark, one family of hues, few hard edges.',
    axes: { warmCool: at(0.15, 0.3), key: at(42, 10), hueSpread: at(1.6, 0.5), softness: at(4.5, 2) },
  },
  {
    word: 'nostalgic',
    sentence: 'Faded and leaning to the warm: no strong colour, no deep dark.',
    axes: {
      warmCool: at(-0.25, 0.2),
      contrast: at(38, 10),
      key: at(54, 10),
      hueSpread: at(1.7, 0.6),
      activePassive: at(-0.25, 0.15),
    },
  },
  {
    word: 'festive',
    sentence: 'Many hues, warm among them, in a light key.',
    axes: {
      hueSpread: at(4.5, 1.2),
      key: at(60, 12),
      warmCool: at(0, 0.4),
      activePassive: at(0.4, 0.35),
    },
  },
  {
    word: 'playful',
    sentence: 'Light, several hues, lively colour, clean edges.',
    axes: { hueSpread: at(3.8, 1.2), key: at(64, 10), softness: at(2.6, 0.9), activePassive: at(0.3, 0.4) },
  },
  {
    word: 'lush',
    sentence: 'Full colour within few families, values in the middle.',
    axes: {
      hueSpread: at(1.8, 0.7),
      key: at(46, 10),
      contrast: at(48, 14),
      activePassive: at(0.5, 0.4),
    },
  },
  {
    word: 'feverish',
    sentence: 'Hot and loud: warm colour at full strength, strong contrast.',
    axes: { warmCool: at(0.45, 0.4), contrast: at(58, 15), activePassive: at(0.7, 0.4) },
  },
  {
    word: 'dramatic',
    sentence: 'Far values: deep darks against few lights.',
    axes: { contrast: at(70, 12), key: at(36, 11) },
  },
  {
    word: 'stormy',
    sentence: 'Heavy and cool, with hard contrast breaking through.',
    axes: {
      warmCool: at(-0.65, 0.2),
      heavyLight: at(1.1, 0.4),
      contrast: at(56, 12),
      hueSpread: at(1.6, 0.6),
    },
  },
  {
    word: 'heavy',
    sentence: 'The picture weighs: most of it is dark, little of it moves.',
    axes: { heavyLight: at(1.5, 0.4), hueSpread: at(1.9, 0.7) },
  },
  {
    word: 'solemn',
    sentence: 'Dark and ordered: one hue, clear steps of value, no loud colour.',
    axes: {
      heavyLight: at(1, 0.35),
      contrast: at(50, 12),
      hueSpread: at(1.4, 0.4),
      activePassive: at(-0.1, 0.3),
    },
  },
  {
    word: 'gloomy',
    sentence: 'Dark without lights: low key, close values, cool or grey.',
    axes: {
      key: at(26, 8),
      contrast: at(32, 10),
      warmCool: at(-0.6, 0.2),
      activePassive: at(-0.1, 0.3),
    },
  },
  {
    word: 'menacing',
    sentence: 'Nearly black, with contrast that comes out of the dark.',
    axes: { heavyLight: at(2, 0.4), contrast: at(52, 14), hueSpread: at(1.8, 0.7) },
  },
  {
    word: 'eerie',
    sentence: 'Cold light in the dark: cool, low key, contrast higher than the dark leads to expect.',
    axes: { warmCool: at(-0.75, 0.25), key: at(28, 9), contrast: at(48, 12), hueSpread: at(2, 0.8) },
  },
  {
    word: 'melancholy',
    sentence: 'Cool, rather dark, close values, little colour.',
    axes: {
      warmCool: at(-0.65, 0.2),
      key: at(42, 9),
      contrast: at(40, 12),
      hueSpread: at(1.7, 0.7),
      activePassive: at(-0.25, 0.2),
    },
  },
  {
    word: 'lonely',
    sentence: 'One hue near grey and large empty passages of close value.',
    axes: { hueSpread: at(1.3, 0.4), contrast: at(38, 12), warmCool: at(-0.6, 0.2), softness: at(4.5, 2.5) },
  },
  {
    word: 'bleak',
    sentence: 'Colour has gone: near grey, middle key, nothing soft about it.',
    axes: {
      warmCool: at(-0.5, 0.12),
      activePassive: at(-0.35, 0.15),
      hueSpread: at(1.4, 0.4),
      softness: at(2.8, 0.9),
    },
  },
  {
    word: 'frozen',
    sentence: 'Cold and light, one hue.',
    axes: { warmCool: at(-1, 0.25), key: at(66, 10), hueSpread: at(1.4, 0.4) },
  },
];

/** The place of a word: the artist's own, else our default; null for a word that is in neither. */
export function placeOf(word: string, own: Readonly<Record<string, MoodTargets>> = {}): MoodTargets | null {
  if (Object.hasOwn(own, word)) return own[word];
  return MOOD_WORDS.find((entry) => entry.word === word)?.axes ?? null;
}
