/** The true light of a test picture as an artist would declare it. */
import type { Rgb } from '@halflight/demo/scene';
import type { LightIntent } from '@halflight/engine';
import { kitOf } from './kit.ts';
import { SCENES } from './scenes.ts';
import { TRAINING } from './train/scenes.ts';

/**
 * The light of the scene that a picture's name begins with, as two taps on a white thing would tell it: in the first key
 * and the fill, and in the fill alone. Null in neutral light, where there is no colour to declare.
 */
export function trueLightOf(picture: string): LightIntent | null {
  const spec = [...SCENES, ...TRAINING].find((s) => picture.startsWith(`${s.name}.`));
  if (!spec || spec.light === 'neutral') return null;
  const { keys, fillUp, fillDown } = kitOf(spec.seed, spec.light).light;
  const shade = fillUp.map((v, c) => 0.5 * (v + fillDown[c]!)) as unknown as Rgb;
  const lit = keys[0]!.map((v, c) => v + shade[c]!) as unknown as Rgb;
  return { kind: 'surface', lit, shade };
}
