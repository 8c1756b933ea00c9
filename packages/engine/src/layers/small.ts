import type { ColourSpace } from '../colour/space.ts';
import type { Intent } from '../intent/intent.ts';
import { makeCloseView } from '../views/average.ts';
import type { View } from '../views/view.ts';
import { compositeStack } from './canvas.ts';
import { measureSmall, type SmallMeasures } from './measures.ts';
import { reduceStack } from './reduce.ts';
import type { LayerNode, LayerStack } from './stack.ts';

/** Layers and groups that are shown or hidden otherwise than they are, by path. */
export type Choices = ReadonlyMap<string, boolean>;

/** A small copy of a layered picture, for many small composites. @param longSide in pixels, at most */
export function smallStack(stack: LayerStack, longSide: number): LayerStack {
  const scale = Math.min(1, longSide / Math.max(stack.width, stack.height));
  return reduceStack(stack, stack.width * stack.height * scale * scale);
}

/** The picture with any choice of its layers, as small as the stack is. */
export function smallComposite(stack: LayerStack, space: ColourSpace, choices: Choices = new Map()): View {
  const chosen = (nodes: readonly LayerNode[]): LayerNode[] =>
    nodes.map((node) => {
      const visible = choices.get(node.path) ?? node.visible;
      return node.kind === 'layer'
        ? { ...node, visible }
        : { ...node, visible, children: chosen(node.children) };
    });
  return makeCloseView(compositeStack({ ...stack, nodes: chosen(stack.nodes) }, 16, space));
}

/** The picture with one layer of a set shown and the others of it hidden. */
export interface OptionPicture extends SmallMeasures {
  readonly path: string;
  readonly view: View;
}

/** For each layer of a set the small picture with only that one shown; stop asking to cancel. */
export function* optionPictures(
  small: LayerStack,
  space: ColourSpace,
  set: readonly string[],
  intent?: Intent,
): Generator<OptionPicture, void> {
  for (const path of set) {
    const view = smallComposite(small, space, new Map(set.map((other) => [other, other === path])));
    yield { path, view, ...measureSmall(view, intent) };
  }
}
