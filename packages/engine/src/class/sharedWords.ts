import type { MoodAxis } from '../intent/intent.ts';
import { MOOD_AXES } from '../intent/moodAxes.ts';

/** A finding as it is said of several works. */
export interface SharedWords {
  readonly text: string;
  readonly todo: string;
}

/** Findings as sentences about several works: what is said of one names its own colours and numbers. */
const SHARED: Readonly<Record<string, SharedWords>> = {
  'hueSpread.many': {
    text: 'More hues compete than can carry the mood.',
    todo: 'Let one or two carry it, and turn or calm the rest.',
  },
  'hueSpread.strays': {
    text: 'Colours stray from the planned hues.',
    todo: 'Turn them towards the nearest planned hue, or calm them.',
  },
  'hueSpread.accent': {
    text: 'The accent is too large to be one.',
    todo: 'Keep it for the one place that should catch the eye.',
  },
  'headroom.darks': {
    text: 'Darks are closed.',
    todo: 'Lift the darkest darks a little, so that an edit can still reach them.',
  },
  'headroom.lights': {
    text: 'Lights are closed.',
    todo: 'Bring the lightest lights down a little, so that an edit can still reach them.',
  },
  'headroom.colours': {
    text: 'Colours lie at the edge of what can be shown.',
    todo: 'Calm the strongest colours a little, so that an edit can still reach them.',
  },
  'light.neutral': {
    text: 'Shade only gets darker.',
    todo: 'Give the shade the colour that the light of the scene leaves it.',
  },
  'light.opposite': {
    text: 'Places are lit against the scene.',
    todo: 'Turn their lit and shaded colours the way the scene’s light turns.',
  },
  'light.none': {
    text: 'Shade only darkens everywhere.',
    todo: 'Decide a light, and let the shade turn with it.',
  },
  'light.turned': {
    text: 'The light is another one than was decided.',
    todo: 'Turn the shade towards the decided light, or decide anew.',
  },
  'light.faint': {
    text: 'The decided light is carried only in parts.',
    todo: 'Carry it on into the places where the shade only darkens.',
  },
  'value.close': {
    text: 'All values lie close together.',
    todo: 'If it is not to be a veil over everything, give one place a value of its own.',
  },
  'value.scattered': {
    text: 'From a step back the values break into many small shapes.',
    todo: 'Join neighbours of like value until a few large shapes are left.',
  },
  'value.focus': {
    text: 'The focus does not stand out in value.',
    todo: 'Set it off from what lies behind it, and quiet the strongest edges elsewhere.',
  },
  'detail.overworked': {
    text: 'Fine detail stands where it adds little.',
    todo: 'Quiet it there, and keep it for the focus.',
  },
  'detail.focusCoarse': {
    text: 'The focus is drawn more coarsely than what lies around it.',
    todo: 'Work at the focus, or quiet what lies around it.',
  },
};

/** What several works share; the words of one of them where there are no others. */
export function sharedWords(key: string, one: SharedWords): SharedWords {
  const [reading, axis] = key.split('.');
  const mood = reading === 'mood' ? MOOD_AXES[axis as MoodAxis] : undefined;
  if (mood)
    return {
      text: `Off the decided mood in ${mood.title}.`,
      todo: 'Each work says in which direction it is off, and by how much.',
    };
  return SHARED[key] ?? one;
}
