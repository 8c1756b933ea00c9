import type { MoodAxis } from '../../intent/intent.ts';
import { censusFor } from '../censusFor.ts';
import { hueDensity } from '../hueSpread/density.ts';
import { familiesOf, type HueFamily } from '../hueSpread/families.ts';
import { hueHistogram } from '../hueSpread/histogram.ts';
import type { ReadingInput } from '../reading.ts';

/** What moves the picture on an axis, one sentence that names the picture's own colours where they matter. */
export function mover(axis: MoodAxis, tooMuch: boolean, input: ReadingInput): string {
  switch (axis) {
    case 'warmCool': {
      const pull = strongest(input, tooMuch);
      if (tooMuch)
        return pull
          ? `Calm the ${pull.name} or turn it towards its cool side; a cooler fill in the shade does as much.`
          : 'Cool the lights or the largest area a little.';
      return pull
        ? `Calm the ${pull.name} or turn it towards its warm side; warm light on a part of it does as much.`
        : 'Warm the lights or the largest area a little.';
    }
    case 'heavyLight':
      return tooMuch
        ? 'Lift the largest dark area: weight is the area of the darks, not their depth.'
        : 'Let a large area sink: weight is the area of the darks, not their depth.';
    case 'activePassive':
      return tooMuch
        ? 'Calm the strongest colours and bring values towards the middle.'
        : 'Strengthen the colour that leads, or let values move away from the middle.';
    case 'key':
      return tooMuch ? 'Darken the largest light area first.' : 'Lighten the largest dark area first.';
    case 'contrast':
      return tooMuch
        ? 'Bring the darkest and the lightest group nearer to the middle one.'
        : 'Move the darkest and the lightest group apart, one of them more than the other.';
    case 'hueSpread':
      return tooMuch
        ? 'Gather the hues around the family that carries the mood.'
        : 'Let another hue in, in the lights or in the shade.';
    case 'softness':
      return tooMuch
        ? 'Firm up a few edges where the eye should stop.'
        : 'Lose edges away from the focus: let neighbours of like value run together.';
  }
}

/** The family whose hue pulls hardest to the warm or to the cool side. */
function strongest(input: ReadingInput, warm: boolean): HueFamily | null {
  const census = censusFor(input);
  const histogram = hueHistogram(census);
  const families = familiesOf(census, histogram, hueDensity(histogram.weight));
  let best: HueFamily | null = null;
  let most = 0.02;
  for (const family of families) {
    // Warmest at CIELAB 50°, which is about 55° in OKLCh.
    const pull = Math.cos(((family.hue - 55) * Math.PI) / 180) * family.weightShare * (warm ? 1 : -1);
    if (pull > most) {
      most = pull;
      best = family;
    }
  }
  return best;
}
