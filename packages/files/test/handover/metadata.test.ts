import { EMPTY_RECIPE, PRESETS } from '@halflight/engine';
import sharp from 'sharp';
import { afterAll, describe, expect, test } from 'vitest';
import { datasetsOf, inResource, writeIptc } from '../../src/handover/iptc.ts';
import { metadataFor, withoutPosition } from '../../src/handover/metadata.ts';
import { writePicture } from '../../src/handover/write.ts';
import { editXmp, writeXmp } from '../../src/handover/xmp.ts';
import { openCodec } from '../../src/node/codec.ts';
import { recipe, settings, source } from './samples.ts';

const codec = await openCodec();
afterAll(() => codec.close());
const backOf = (bytes: Uint8Array, name: string) => codec.decode(bytes, { name });

const texts = { title: 'Dusk & <mud>', author: 'Ada Example', rights: '© 2026 "Ada"' };

describe('beside the pixels', () => {
  test.each(['png', 'jpeg', 'tiff', 'webp'] as const)('title, author and rights in %s', async (format) => {
    const metadata = { ...PRESETS.screen.metadata, ...texts };
    const made = await writePicture(codec, source(), recipe, settings({ format, metadata }));
    const { xmp, exif } = (await backOf(made.bytes, made.name)).metadata;
    const text = new TextDecoder().decode(xmp ?? new Uint8Array(0));
    expect(text).toContain('<rdf:li xml:lang="x-default">Dusk &amp; &lt;mud&gt;</rdf:li>');
    expect(text).toContain('<dc:creator><rdf:Seq><rdf:li>Ada Example</rdf:li></rdf:Seq></dc:creator>');
    expect(text).toContain('© 2026 &quot;Ada&quot;');
    expect(exif).toBeNull();
  });
  test('nothing to say, nothing written', () => {
    expect(writeXmp({ title: '', author: '', rights: '' })).toBeNull();
  });
  const packet = new TextEncoder().encode(
    `<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="r"><rdf:Description rdf:about="" exif:GPSLatitude="54,1N" tiff:Make="Old"><dc:title><rdf:Alt><rdf:li>Before</rdf:li></rdf:Alt></dc:title><Iptc4xmpExt:LocationShown><rdf:Bag><rdf:li>Here</rdf:li></rdf:Bag></Iptc4xmpExt:LocationShown><exif:GPSLongitude>8,2E</exif:GPSLongitude></rdf:Description></rdf:RDF></x:xmpmeta>`,
  );
  test('a packet that was there loses its place and its title, and keeps the rest', () => {
    const text = new TextDecoder().decode(editXmp(packet, texts, false)!);
    expect(text).not.toMatch(/GPS|Location|Before|Here/);
    expect(text).toContain('tiff:Make="Old"');
    expect(text).toContain('Dusk &amp;');
    expect(new TextDecoder().decode(editXmp(packet, texts, true)!)).toContain('GPSLatitude="54,1N"');
  });
  test('the position goes from EXIF and the rest stays', async () => {
    const jpeg = await sharp({ create: { width: 8, height: 8, channels: 3, background: '#456' } })
      .withExif({
        IFD0: { Make: 'Example', Copyright: 'Ada' },
        IFD3: { GPSLatitudeRef: 'N', GPSLatitude: '54/1 3/1 0/1' },
      })
      .jpeg()
      .toBuffer();
    const decoded = await backOf(jpeg, 'x.jpg');
    const bare = withoutPosition(decoded.metadata.exif!)!;
    const text = Buffer.from(bare).toString('latin1');
    expect(text).toContain('Example');
    expect(text).toContain('Ada');
    const metadata = { ...PRESETS.screen.metadata, keepOthers: true };
    const made = await writePicture(codec, { ...decoded }, EMPTY_RECIPE, settings({ metadata }));
    const kept = (await sharp(made.bytes).metadata()).exif!;
    expect(kept.toString('latin1')).toContain('Example');
    // The tag of the directory of positions, in either byte order.
    expect(kept.includes(Buffer.from([0x88, 0x25]))).toBe(false);
    expect(kept.includes(Buffer.from([0x25, 0x88]))).toBe(false);
    expect(decoded.metadata.exif!.some((v, i, all) => v === 0x25 && all[i + 1] === 0x88)).toBe(true);
  });
});

describe('the block of IPTC', () => {
  const latin1 = (bytes: Uint8Array): string => Buffer.from(bytes).toString('latin1');
  // IPTC-NAA Information Interchange Model 4.2, section 1.5 (datasets: 1C, record, number, two bytes of length) and
  // chapters 5 and 6 (1:90, 2:00, 2:05, 2:80, 2:116).
  test('byte for byte', () => {
    const block = writeIptc({ title: 'Dusk', author: 'Ada Ø', rights: '© Ada' }, null)!;
    expect(latin1(block)).toBe(
      '\x1c\x01\x5a\x00\x03\x1b%G\x1c\x02\x00\x00\x02\x00\x04\x1c\x02\x05\x00\x04Dusk' +
        '\x1c\x02\x50\x00\x06Ada \xc3\x98\x1c\x02\x74\x00\x06\xc2\xa9 Ada',
    );
  });
  test('is cut at whole letters where the model allows no more', () => {
    const texts = { title: 'ü'.repeat(60), author: 'ö'.repeat(60), rights: 'ß'.repeat(100) };
    const sets = datasetsOf(writeIptc(texts, null)!)!;
    expect(sets.map(({ number, data }) => [number, data.length])).toEqual([
      [90, 3],
      [0, 2],
      [5, 64],
      [80, 32],
      [116, 128],
    ]);
    expect(new TextDecoder('utf-8', { fatal: true }).decode(sets[3].data)).toBe('ö'.repeat(16));
  });
  test.each(['jpeg', 'tiff'] as const)('stands in %s and is read from there', async (format) => {
    const metadata = { ...PRESETS.screen.metadata, ...texts };
    const made = await writePicture(codec, source(), recipe, settings({ format, metadata }));
    const { iptc } = (await backOf(made.bytes, made.name)).metadata;
    const said = datasetsOf(iptc!)!.map(({ data }) => new TextDecoder().decode(data));
    expect(said.slice(2)).toEqual([texts.title, texts.author, texts.rights]);
  });
  // What another program wrote: a city, a caption in Latin-1, an object name.
  const set = (number: number, text: string) => [
    0x1c,
    2,
    number,
    0,
    text.length,
    ...Buffer.from(text, 'latin1'),
  ];
  const other = Uint8Array.of(...set(90, 'Town'), ...set(120, 'H\xe4fen'), ...set(5, 'Before'));
  const kept = (change: object, format: 'jpeg' | 'tiff' | 'png') =>
    metadataFor(
      { exif: null, xmp: null, iptc: inResource(other) },
      { ...PRESETS.screen.metadata, ...change },
      format,
    ).iptc;
  test('of another’s block all is kept with the place, and nothing without', () => {
    const all = datasetsOf(kept({ title: 'Now', keepOthers: true, keepLocation: true }, 'tiff')!)!;
    expect(all.slice(2).map(({ number, data }) => [number, new TextDecoder().decode(data)])).toEqual([
      [5, 'Now'],
      [90, 'Town'],
      [120, 'Häfen'],
    ]);
    const bare = kept({ title: 'Now', keepOthers: true }, 'jpeg')!;
    expect(latin1(bare)).not.toMatch(/Town|Before|fen/);
    expect(kept({ keepOthers: true }, 'jpeg')).toBeNull();
    expect(kept({ title: 'Now', keepOthers: true, keepLocation: true }, 'png')).toBeNull();
  });
  test.each([
    ['nothing', []],
    ['other bytes', [1, 2, 3, 4, 5, 6, 7]],
    ['a length beyond its end', [0x1c, 2, 5, 0, 9, 65]],
    ['an extended length', [0x1c, 2, 5, 0x80, 4, 0, 0, 0, 1, 65]],
  ])('%s is none', (_, bytes) => {
    expect(datasetsOf(Uint8Array.from(bytes))).toBeNull();
  });
});
