import { parseXml, XmlElement } from '@rgrove/parse-xml';
import { type Mode, modeOf } from './modes.ts';
import { layeredTrouble } from './trouble.ts';

interface StoredNode extends Mode {
  /** Names from the outermost group down, told apart by numbers where they repeat. */
  readonly path: string;
  readonly name: string;
  readonly visible: boolean;
  readonly opacity: number;
  /** All attributes as they stand in the file, also those that nobody here knows. */
  readonly attributes: Readonly<Record<string, string>>;
}

export interface StoredLayer extends StoredNode {
  readonly kind: 'layer';
  readonly x: number;
  readonly y: number;
  /** Name of its PNG in the ZIP. */
  readonly src: string;
}

export interface StoredGroup extends StoredNode {
  readonly kind: 'group';
  readonly isolated: boolean;
  /** Lowest first; in the file the topmost stands first. */
  readonly children: readonly StoredLayerNode[];
}

export type StoredLayerNode = StoredLayer | StoredGroup;

export interface StoredStack {
  readonly width: number;
  readonly height: number;
  readonly attributes: Readonly<Record<string, string>>;
  /** Attributes of the outermost stack. */
  readonly root: Readonly<Record<string, string>>;
  readonly nodes: readonly StoredLayerNode[];
  /** What was read differently from how it was meant, in sentences. */
  readonly notes: readonly string[];
}

/** Deeper groups and more layers are no painter's: they are there to exhaust the reader. */
const DEEPEST = 24;
const MOST_LAYERS = 2000;
const FARTHEST = 1_000_000;

/**
 * Reads stack.xml. Entities that a document declares itself are not expanded; the parser refuses them.
 *
 * @throws FileTrouble
 */
export function parseStack(text: string, file: string, limitMegapixels: number): StoredStack {
  const bad = (what: string, cause?: unknown) => layeredTrouble.stack(file, what, cause);
  const image = rootOf(text, bad);
  const width = whole(image, 'w', bad);
  const height = whole(image, 'h', bad);
  if (width < 1 || height < 1) throw bad(`its canvas is ${width} × ${height}`);
  if (width * height > limitMegapixels * 1e6)
    throw bad(`its canvas is ${width} × ${height}, and the limit is ${limitMegapixels} megapixels`);
  const stack = elements(image).find(({ name }) => name === 'stack');
  if (!stack) throw bad('it has no stack of layers');
  const notes = new Set<string>();
  let count = 0;
  const read = (list: XmlElement, above: string, depth: number): StoredLayerNode[] => {
    if (depth > DEEPEST) throw bad(`its groups are more than ${DEEPEST} deep`);
    const names = new Map<string, number>();
    const nodes: StoredLayerNode[] = [];
    for (const element of elements(list).reverse()) {
      if (element.name !== 'layer' && element.name !== 'stack') {
        notes.add(`“${element.name}” elements in it are not layers of pixels and were left out.`);
        continue;
      }
      if (++count > MOST_LAYERS) throw bad(`it has more than ${MOST_LAYERS} layers`);
      const { attributes } = element;
      const name = attributes.name || (element.name === 'layer' ? 'layer' : 'group');
      const number = (names.get(name) ?? 0) + 1;
      names.set(name, number);
      const path = `${above}${name.replaceAll('/', '∕')}${number > 1 ? ` #${number}` : ''}`;
      const op = attributes['composite-op'] ?? 'svg:src-over';
      const mode = modeOf(op);
      if (!mode) notes.add(`The mode “${op}” of “${path}” is not known; it was taken as normal.`);
      const shared = {
        ...(mode ?? { blend: 'normal' as const, operator: 'source-over' as const }),
        path,
        name,
        attributes,
        visible: attributes.visibility !== 'hidden',
        opacity: opacityOf(attributes.opacity, path, bad),
      };
      if (element.name === 'layer') {
        if (!attributes.src) throw bad(`the layer “${path}” names no pixels`);
        const [x, y] = [whole(element, 'x', bad, 0), whole(element, 'y', bad, 0)];
        nodes.push({ ...shared, kind: 'layer', x, y, src: attributes.src });
        continue;
      }
      if (Number(attributes.x ?? 0) !== 0 || Number(attributes.y ?? 0) !== 0)
        notes.add(`The group “${path}” has a place of its own, which was not used.`);
      nodes.push({
        ...shared,
        kind: 'group',
        // Without "isolate" a group is still one of its own when it is thinned or mixed as a whole.
        isolated: attributes.isolation === 'isolate' || shared.opacity < 1 || op !== 'svg:src-over',
        children: read(element, `${path}/`, depth + 1),
      });
    }
    return nodes;
  };
  const nodes = read(stack, '', 1);
  return { width, height, attributes: image.attributes, root: stack.attributes, nodes, notes: [...notes] };
}

function rootOf(text: string, bad: (what: string, cause?: unknown) => Error): XmlElement {
  try {
    const { root } = parseXml(text);
    if (root?.name === 'image') return root;
  } catch (error) {
    if (error instanceof RangeError) throw bad('its groups are nested without end', error);
    throw bad('stack.xml is no sound XML', error);
  }
  throw bad('stack.xml does not hold an image');
}

function elements(of: XmlElement): XmlElement[] {
  return of.children.filter((child) => child instanceof XmlElement);
}

function whole(
  { attributes, name }: XmlElement,
  key: string,
  bad: (what: string) => Error,
  otherwise?: number,
): number {
  const text = attributes[key];
  if (text === undefined && otherwise !== undefined) return otherwise;
  const value = Math.round(Number(text));
  if (text === undefined || text.trim() === '' || !Number.isFinite(value) || Math.abs(value) > FARTHEST)
    throw bad(
      `“${key}” of the ${name} “${attributes.name ?? ''}” is ${text === undefined ? 'missing' : `“${text.slice(0, 24)}”`}`,
    );
  return value;
}

function opacityOf(text: string | undefined, path: string, bad: (what: string) => Error): number {
  if (text === undefined) return 1;
  const value = Number(text);
  if (text.trim() === '' || !(value >= 0 && value <= 1))
    throw bad(`the opacity of “${path}” is “${text.slice(0, 24)}” and not between 0 and 1`);
  return value;
}
