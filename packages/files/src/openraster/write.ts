import { Uint8ArrayReader, Uint8ArrayWriter, ZipWriter } from '@zip.js/zip.js/lib/zip-core-native.js';
import { MIMETYPE } from './open.ts';

type Attributes = Readonly<Record<string, string>>;

/** A layer to write. */
export interface LayerDraft {
  readonly attributes: Attributes;
  readonly x: number;
  readonly y: number;
  readonly png: Uint8Array<ArrayBuffer>;
}

/** A group to write; its children lowest first. */
export interface GroupDraft {
  readonly attributes: Attributes;
  readonly children: readonly (LayerDraft | GroupDraft)[];
}

export interface OpenRasterDraft {
  readonly width: number;
  readonly height: number;
  /** Of the image; sizes and version are set here. */
  readonly attributes?: Attributes;
  readonly root: GroupDraft;
  /** The whole picture put together. */
  readonly merged: Uint8Array<ArrayBuffer>;
  /** At most 256 pixels on its long side. */
  readonly thumbnail: Uint8Array<ArrayBuffer>;
}

const VERSION = '0.0.5';
// One time for all files: the same picture gives the same bytes.
const TIME = new Date(2000, 0, 1);

/**
 * The bytes of an OpenRaster file, laid out as its specification asks: the media type first and stored, then the list
 * of layers, their pixels, the merged picture and the thumbnail. PNGs are packed already and are stored.
 */
export async function writeOpenRaster(draft: OpenRasterDraft): Promise<Uint8Array<ArrayBuffer>> {
  const zip = new ZipWriter(new Uint8ArrayWriter(), {
    extendedTimestamp: false,
    lastModDate: TIME,
    keepOrder: true,
    dataDescriptor: false,
  });
  const text = (content: string) => new Uint8ArrayReader(new TextEncoder().encode(content));
  await zip.add('mimetype', text(MIMETYPE), { level: 0 });
  const pngs: Uint8Array<ArrayBuffer>[] = [];
  const lines: string[] = [];
  const put = (node: LayerDraft | GroupDraft, indent: string): void => {
    if ('children' in node) {
      lines.push(`${indent}<stack${written(node.attributes)}>`);
      for (const child of [...node.children].reverse()) put(child, `${indent} `);
      lines.push(`${indent}</stack>`);
      return;
    }
    const src = `data/layer${String(pngs.length).padStart(3, '0')}.png`;
    pngs.push(node.png);
    lines.push(
      `${indent}<layer${written({ ...node.attributes, src, x: String(node.x), y: String(node.y) })}/>`,
    );
  };
  put(draft.root, ' ');
  const image = { version: VERSION, ...draft.attributes, w: String(draft.width), h: String(draft.height) };
  await zip.add(
    'stack.xml',
    text(`<?xml version='1.0' encoding='UTF-8'?>\n<image${written(image)}>\n${lines.join('\n')}\n</image>\n`),
    { level: 6 },
  );
  for (const [i, png] of pngs.entries())
    await zip.add(`data/layer${String(i).padStart(3, '0')}.png`, new Uint8ArrayReader(png), { level: 0 });
  await zip.add('mergedimage.png', new Uint8ArrayReader(draft.merged), { level: 0 });
  await zip.add('Thumbnails/thumbnail.png', new Uint8ArrayReader(draft.thumbnail), { level: 0 });
  return (await zip.close()) as Uint8Array<ArrayBuffer>;
}

function written(attributes: Attributes): string {
  return Object.entries(attributes)
    .map(([key, value]) => ` ${key}="${escaped(value)}"`)
    .join('');
}

const ESCAPES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  '\n': '&#10;',
  '\t': '&#9;',
};

function escaped(value: string): string {
  return value.replace(/[&<>"\n\t]/g, (c) => ESCAPES[c]);
}
