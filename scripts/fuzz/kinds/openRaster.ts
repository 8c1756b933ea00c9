import { readLayers } from '@halflight/engine';
import { gather } from '@halflight/files/layers';
import { openCodec } from '@halflight/files/node';
import { bytesSource, openOpenRaster } from '@halflight/files/openraster';
import type { RawEntry } from '../../../packages/files/test/dossier/rawZip.ts';
import { rawZip } from '../../../packages/files/test/dossier/rawZip.ts';
import { makePng, RGBA } from '../../../packages/files/test/made/png.ts';
import { changeBytes, mendPng } from '../bytes.ts';
import { expectWords, type Kind, refusing } from '../kind.ts';
import type { Chance } from '../random.ts';
import { changeZip } from '../zip.ts';

const LIMIT = 24;
const STACK = `<?xml version="1.0" encoding="UTF-8"?>
<image version="0.0.5" w="12" h="9" xres="300" yres="300"><stack>
<layer name="mist &amp; lamps" src="data/a.png" x="1" y="2" opacity="0.5" visibility="visible" composite-op="svg:screen"/>
<stack name="sheds" opacity="0.8" isolation="isolate" composite-op="svg:multiply"><layer name="a" src="data/b.png"/>
<stack name="inner" isolation="auto"><layer name="a" src="data/a.png" x="-3" composite-op="svg:dst-in"/></stack></stack>
<layer name="mud" src="data/b.png" visibility="hidden"/></stack></image>`;
const VALUES = [
  '',
  '0',
  '-1',
  '1e9',
  '4000',
  '9000',
  '0.5',
  'nought',
  'hidden',
  'isolate',
  '../x',
  'svg:dst-out',
  '&#0;',
  '&lt;b&gt;',
  'svg:color-burn',
];

const png = (seed: number): Uint8Array =>
  makePng({
    width: 8,
    height: 6,
    bits: 8,
    type: RGBA,
    samples: Array.from({ length: 8 * 6 * 4 }, (_, i) => (i * seed * 37) % 256),
  });

/** A layered picture: opened, its layers decoded, put together and weighed. */
export async function openRasterKind(): Promise<Kind> {
  const codec = await openCodec();
  const [a, b] = [png(3), png(11)];
  return {
    make(chance) {
      const entries: RawEntry[] = [
        { name: 'mimetype', data: new TextEncoder().encode('image/openraster') },
        { name: 'stack.xml', data: changeStack(chance), deflate: true },
        { name: 'data/a.png', data: chance.maybe(0.2) ? mendPng(changeBytes(a, chance)) : a },
        { name: 'data/b.png', data: b },
        { name: 'mergedimage.png', data: b },
      ];
      const file = rawZip(chance.maybe(0.2) ? changeZip(entries, chance) : entries);
      return chance.maybe(0.15) ? changeBytes(file, chance) : file;
    },
    feed: (bytes) =>
      refusing(async () => {
        const file = await openOpenRaster(bytesSource(bytes, 'ferry.ora'), LIMIT);
        await file.merged();
        if (file.nodes.length === 0) return;
        const { stack, depth, space, notes } = await gather(file, { codec, limitMegapixels: LIMIT });
        for (const note of notes) expectWords(note);
        const { layers } = readLayers(stack, depth, space);
        for (const { worth } of layers)
          if (!(worth.mean >= 0)) throw new Error(`a layer that is worth ${worth.mean}`);
      }),
  };
}

function changeStack(chance: Chance): Uint8Array {
  let text = STACK;
  for (let times = chance.below(4); times > 0; times--) {
    const act = chance.below(4);
    if (act === 0) {
      const quoted = [...text.matchAll(/"[^"]*"/g)];
      const { index, 0: old } = chance.one(quoted);
      text = `${text.slice(0, index)}"${chance.one(VALUES)}"${text.slice(index + old.length)}`;
    } else if (act === 1) {
      const names = [...text.matchAll(/[\w-]+(?==")/g)];
      const { index, 0: old } = chance.one(names);
      const other = chance.one(names)[0];
      text = text.slice(0, index) + other + text.slice(index + old.length);
    } else if (act === 2) {
      const depth = chance.one([1, 8, 20, 70]);
      text = text
        .replace('<stack>', `<stack>${'<stack isolation="isolate">'.repeat(depth)}`)
        .replace('</stack></image>', `${'</stack>'.repeat(depth)}</stack></image>`);
    } else return changeBytes(new TextEncoder().encode(text), chance);
  }
  return new TextEncoder().encode(text);
}
