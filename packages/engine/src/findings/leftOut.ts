import { fillOutlines } from '../areas/outline.ts';
import type { Field, View } from '../views/view.ts';
import type { Answer } from './answer.ts';

/** The areas that "wrong" answers leave out, at close-view size, 1 = left out; null when there are none. */
export function leftOutOf(
  answers: readonly Answer[],
  { width, height }: Pick<View, 'width' | 'height'>,
): Field | null {
  const outlines = answers.flatMap(({ kind, outline }) => (kind === 'wrong' && outline ? [outline] : []));
  if (outlines.length === 0) return null;
  // One by one: filled together, outlines that overlap would cancel each other out.
  const [all, ...others] = outlines.map((outline) => fillOutlines([outline], width, height));
  for (const { data } of others) {
    for (let i = 0; i < data.length; i++) all.data[i] = Math.max(all.data[i], data[i]);
  }
  return all;
}
