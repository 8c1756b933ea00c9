import { execFileSync } from 'node:child_process';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Uint8ArrayReader, Uint8ArrayWriter, ZipWriter } from '@zip.js/zip.js/lib/zip-core-native.js';
import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import {
  bytesSource,
  openOpenRaster,
  type StoredLayer,
  writeOpenRaster,
} from '../../src/openraster/index.ts';

const png = async (value: number): Promise<Uint8Array<ArrayBuffer>> =>
  new Uint8Array(
    await sharp(Buffer.alloc(4 * 6 * 4, value), { raw: { width: 6, height: 4, channels: 4 } })
      .png()
      .toBuffer(),
  );

/** An OpenRaster file with this list of layers, and whatever else is put in. */
async function fileOf(
  stack: string,
  files: Record<string, Uint8Array<ArrayBuffer>> = {},
  mimetype = 'image/openraster',
) {
  const zip = new ZipWriter(new Uint8ArrayWriter());
  const text = (t: string) => new Uint8ArrayReader(new TextEncoder().encode(t));
  await zip.add('mimetype', text(mimetype), { level: 0 });
  await zip.add('stack.xml', text(stack));
  for (const [name, bytes] of Object.entries(files)) await zip.add(name, new Uint8ArrayReader(bytes));
  return bytesSource((await zip.close()) as Uint8Array, 'test.ora');
}
const image = (inside: string, size = 'w="6" h="4"') =>
  `<?xml version="1.0"?><image version="0.0.5" ${size}>${inside}</image>`;

describe('written and read again', async () => {
  const bytes = await writeOpenRaster({
    width: 6,
    height: 4,
    attributes: { xres: '300' },
    root: {
      attributes: {},
      children: [
        { attributes: { name: 'low & "slow"', 'own:mark': 'kept <so>' }, x: -2, y: 1, png: await png(10) },
        {
          attributes: { name: 'air', isolation: 'isolate', opacity: '0.5' },
          children: [
            {
              attributes: { name: 'fog', 'composite-op': 'svg:screen', visibility: 'hidden' },
              x: 0,
              y: 0,
              png: await png(20),
            },
          ],
        },
      ],
    },
    merged: await png(30),
    thumbnail: await png(40),
  });

  test('everything comes back, unknown attributes too', async () => {
    const file = await openOpenRaster(bytesSource(bytes, 'a.ora'));
    expect([file.width, file.height, file.attributes.xres]).toEqual([6, 4, '300']);
    const [low, air] = file.nodes;
    expect(low).toMatchObject({
      kind: 'layer',
      name: 'low & "slow"',
      x: -2,
      y: 1,
      blend: 'normal',
      opacity: 1,
    });
    expect(low.attributes['own:mark']).toBe('kept <so>');
    expect(air).toMatchObject({ kind: 'group', isolated: true, opacity: 0.5 });
    const fog = (air as Extract<typeof air, { kind: 'group' }>).children[0];
    expect(fog).toMatchObject({ path: 'air/fog', blend: 'screen', operator: 'source-over', visible: false });
    expect(await file.layer(fog as StoredLayer)).toEqual(await png(20));
    expect(await file.merged()).toEqual(await png(30));
  });

  test('the layout is that of the specification, as unzip of Python sees it', () => {
    const path = join(mkdtempSync(join(tmpdir(), 'halflight-')), 'a.ora');
    writeFileSync(path, bytes);
    const script =
      'import sys,zipfile;z=zipfile.ZipFile(sys.argv[1]);i=z.infolist();print(z.testzip(),i[0].filename,i[0].compress_type,i[0].header_offset,z.read("mimetype").decode(),[n for n in z.namelist()[1:]])';
    expect(execFileSync('python3', ['-c', script, path], { encoding: 'utf8' })).toBe(
      "None mimetype 0 0 image/openraster ['stack.xml', 'data/layer000.png', 'data/layer001.png', 'mergedimage.png', 'Thumbnails/thumbnail.png']\n",
    );
    // "file" and other programs look at byte 38: the media type stands there when nothing comes before it.
    expect(new TextDecoder().decode(bytes.subarray(38, 54))).toBe('image/openraster');
  });
});

test('a file that another ZIP program wrote opens', async () => {
  const path = join(mkdtempSync(join(tmpdir(), 'halflight-')), 'b.ora');
  const script = `import sys,zipfile
z=zipfile.ZipFile(sys.argv[1],'w')
z.writestr('mimetype','image/openraster',zipfile.ZIP_STORED)
z.writestr('stack.xml',sys.argv[2],zipfile.ZIP_DEFLATED)
z.close()
sys.stdout.buffer.write(open(sys.argv[1],'rb').read())`;
  const bytes = execFileSync('python3', [
    '-c',
    script,
    path,
    image('<stack><layer src="data/a.png" composite-op="svg:dst-in"/></stack>'),
  ]);
  const file = await openOpenRaster(bytesSource(bytes, 'b.ora'));
  expect(file.nodes[0]).toMatchObject({ blend: 'normal', operator: 'destination-in', x: 0, visible: true });
  await expect(file.layer(file.nodes[0] as StoredLayer)).rejects.toThrow(
    /pixels of the layer “layer” are missing/,
  );
});

describe('what can be wrong is said in a sentence', () => {
  const laughs = `<?xml version="1.0"?><!DOCTYPE image [<!ENTITY a "ha"><!ENTITY b "&a;&a;&a;&a;">]><image w="6" h="4"><stack name="&b;"/></image>`;
  const deep = (n: number) => image(`${'<stack>'.repeat(n)}${'</stack>'.repeat(n)}`);
  test.each([
    ['another media type', image('<stack/>'), /not an OpenRaster file/, 'application/zip'],
    ['entity expansion', laughs, /no sound XML/],
    ['broken XML', '<image', /no sound XML/],
    ['another root', '<svg/>', /does not hold an image/],
    ['no stack', image(''), /no stack of layers/],
    ['10 000 deep groups', deep(10_000), /groups are (nested without end|more than 24 deep)/],
    ['100 deep groups', deep(100), /more than 24 deep/],
    ['a huge canvas', image('<stack/>', 'w="900000" h="900000"'), /limit is 100 megapixels/],
    ['no size', image('<stack/>', ''), /“w” of the image/],
    ['an empty canvas', image('<stack/>', 'w="0" h="4"'), /canvas is 0 × 4/],
    ['huge coordinates', image('<stack><layer src="a.png" x="1e300"/></stack>'), /“x” of the layer/],
    ['no number', image('<stack><layer src="a.png" y="left"/></stack>'), /“y” of the layer.*“left”/],
    ['opacity 7', image('<stack><layer src="a.png" opacity="7"/></stack>'), /opacity of “layer” is “7”/],
    ['no pixels named', image('<stack><layer name="x"/></stack>'), /names no pixels/],
    ['too many layers', image(`<stack>${'<layer src="a"/>'.repeat(2001)}</stack>`), /more than 2000 layers/],
  ])('%s', async (_, stack, words, mimetype?: string) => {
    await expect(fileOf(stack, {}, mimetype).then((source) => openOpenRaster(source))).rejects.toMatchObject({
      name: 'FileTrouble',
      message: expect.stringMatching(words),
    });
  });

  test('names outside', async () => {
    const file = await openOpenRaster(await fileOf(image('<stack><layer src="../../etc/passwd"/></stack>')));
    await expect(file.layer(file.nodes[0] as StoredLayer)).rejects.toThrow(/points outside/);
  });

  test('no ZIP, cut off', async () => {
    await expect(openOpenRaster(bytesSource(new Uint8Array(50), 'x.ora'))).rejects.toThrow(
      /not an OpenRaster file: it is no ZIP/,
    );
    const whole = await fileOf(image('<stack/>'));
    const half = bytesSource(await whole.read(0, whole.size >> 1), 'x.ora');
    await expect(openOpenRaster(half)).rejects.toThrow(/damaged or cut off/);
  });

  test('unknown modes and elements are told', async () => {
    const { notes } = await openOpenRaster(
      await fileOf(image('<stack><text/><layer src="a.png" composite-op="own:glaze"/></stack>')),
    );
    expect(notes.join(' ')).toMatch(
      /“own:glaze” of “layer” is not known.*“text” elements|“text” elements.*“own:glaze”/,
    );
  });
});
