/**
 * Writes oracle.json: what LittleCMS' and OpenColorIO's own tools make of the files that are handed over.
 *
 * Needs Debian's liblcms2-utils (transicc, linkicc, tificc; LittleCMS 2.14) and opencolorio-tools (ociochecklut), and a built package:
 *   npx tsc -b packages/files && node packages/files/test/handover/oracle/make.mjs && npx biome check --write packages/files/test/handover/oracle
 */
import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { bakeTable, SRGB } from '@halflight/engine';
import sharp from 'sharp';
import Vips from 'wasm-vips';
import { writeAbstractProfile } from '../../../dist/handover/abstractProfile.js';
import { writeClf } from '../../../dist/handover/clf.js';
import { writeProfile } from '../../../dist/icc/write.js';

/** The edit and the colours that the oracle was asked about. */
const recipe = {
  schema: 'halflight/recipe@1',
  steps: [
    { kind: 'exposure', on: true, strength: 1, values: { stops: -0.35 } },
    { kind: 'warmth', on: true, strength: 1, values: { mired: 20 } },
    { kind: 'chroma', on: true, strength: 1, values: { gain: 0.85 } },
    { kind: 'openEnds', on: true, strength: 1, values: { darks: 6, lights: 3 } },
  ],
};

/** sRGB codes 0…1: greys, then colours spread evenly without chance (R3 sequence, Roberts 2018). */
function colours(count) {
  return Array.from({ length: count }, (_, i) => {
    if (i < 12) return [i / 11, i / 11, i / 11];
    return [0.8191725, 0.6710436, 0.5497005].map((step) => 0.05 + 0.9 * ((0.5 + step * i) % 1));
  });
}

/** A picture of all hues from grey to full, 8-bit sRGB. */
function ground() {
  const width = 48;
  const height = 32;
  const data = new Uint8Array(3 * width * height);
  for (let y = 0, i = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const part = y / (height - 1);
      for (const shift of [0, 2, 4]) {
        const wave = Math.min(1, Math.max(0, Math.abs((((6 * x) / width + shift) % 6) - 3) - 1));
        data[i++] = Math.round(255 * (0.45 + part * (wave - 0.45)));
      }
    }
  return { width, height, data };
}

const folder = mkdtempSync(join(tmpdir(), 'oracle-'));
const vips = await Vips({ dynamicLibraries: [] });
const file = (name, bytes) => {
  const path = join(folder, name);
  writeFileSync(path, bytes);
  return path;
};
const cmyk = file('cmyk.icc', vips.Image.profileLoad('cmyk'));
vips.shutdown();
const srgb = file('srgb.icc', writeProfile(SRGB));
const clf = file('edit.clf', writeClf(bakeTable(recipe, 'srgb'), 'edit'));
const edit = file('edit.icc', writeAbstractProfile(recipe, 'edit'));

function transicc(args, rows) {
  const input = rows.map((row) => row.map((v) => v.toFixed(8)).join('\n')).join('\n');
  const text = execFileSync('transicc', ['-c0', '-n', ...args], { input, encoding: 'utf8' });
  const out = text
    .trim()
    .split('\n')
    .map((line) => line.trim().split(/\s+/).map(Number))
    .filter((row) => row.length >= 3 && row.every(Number.isFinite));
  if (out.length !== rows.length)
    throw new Error(`${args}: ${out.length} answers to ${rows.length} questions`);
  return out;
}

const codes = colours(60);
const lab = transicc(
  ['-t1', `-i${srgb}`, '-o*Lab'],
  codes.map((row) => row.map((v) => 255 * v)),
);
const inks = Object.fromEntries(
  [
    ['relative', ['-t1']],
    ['relative, black point', ['-t1', '-b']],
    ['perceptual', ['-t0']],
  ].map(([name, way]) => {
    const ink = transicc([...way, '-i*Lab', `-o${cmyk}`], lab);
    return [name, { ink, back: transicc(['-t1', `-i${cmyk}`, '-o*Lab'], ink) }];
  }),
);
const ocio = codes.map((code) => {
  const { stdout, stderr } = spawnSync('ociochecklut', [clf, ...code.map((v) => v.toFixed(8))], {
    encoding: 'utf8',
  });
  const row = stdout.trim().split('\n').at(-1).trim().split(/\s+/).map(Number);
  if (row.length !== 3 || !row.every(Number.isFinite)) throw new Error(`ociochecklut: ${stdout}${stderr}`);
  return row;
});
const link = join(folder, 'link.icc');
execFileSync('linkicc', [`-o${link}`, '-n65', '-t1', srgb, edit, srgb]);
const abstract = transicc(['-t1', `-l${edit}`], lab);
const linked = transicc(
  [`-l${link}`],
  codes.map((row) => row.map((v) => 255 * v)),
);

// The gamut check of LittleCMS paints over what is lost with grey 127.
const { width, height, data } = ground();
const picture = join(folder, 'in.tif');
const marked = join(folder, 'out.tif');
await sharp(data, { raw: { width, height, channels: 3 } })
  .tiff({ compression: 'none' })
  .toFile(picture);
execFileSync('tificc', ['-t1', '-m1', '-g', `-i${srgb}`, `-o${srgb}`, `-p${cmyk}`, picture, marked]);
const alarm = await sharp(readFileSync(marked)).raw().toBuffer();
let lost = 0;
for (let i = 0; i < alarm.length; i += 3)
  if (alarm[i] === 127 && alarm[i + 1] === 127 && alarm[i + 2] === 127) lost++;

const rounded = (rows) => rows.map((row) => row.map((v) => Math.round(v * 1e5) / 1e5));
writeFileSync(
  new URL('./oracle.json', import.meta.url),
  `${JSON.stringify({
    source:
      'LittleCMS 2.14 (Debian liblcms2-utils 2.14-2), OpenColorIO (Debian opencolorio-tools); CMYK: the general coated-paper profile of the imaging library',
    recipe,
    codes: rounded(codes),
    lab: rounded(lab),
    inks: Object.fromEntries(
      Object.entries(inks).map(([k, v]) => [k, { ink: rounded(v.ink), back: rounded(v.back) }]),
    ),
    ocio: rounded(ocio),
    abstract: rounded(abstract),
    linked: rounded(linked),
    ground: { width, height, data: Buffer.from(data).toString('base64') },
    lostShare: lost / (width * height),
  })}\n`,
);
console.log(
  { lostShare: lost / (width * height) },
  ocio.slice(0, 2),
  abstract.slice(0, 2),
  linked.slice(0, 2),
);
