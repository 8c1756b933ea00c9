/**
 * Writes lcms.json: what LittleCMS' own calculator makes of code values, by the profiles of the tests.
 *
 * Needs Debian's liblcms2-utils (transicc; LittleCMS 2.14) and icc-profiles-free, and a built package:
 *   npx tsc -b packages/files && node packages/files/test/oracle/make.mjs && npx biome check --write packages/files/test/oracle
 * Relative colorimetric, no precalculation, unbounded; XYZ of the connection space (D50), white Y = 100.
 */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DELIVERY_SPACES } from '@halflight/engine';
import Vips from 'wasm-vips';
import { writeProfile } from '../../dist/icc/write.js';
import { makeTableProfile } from './made-table.mjs';

const folder = mkdtempSync(join(tmpdir(), 'oracle-'));
const vips = await Vips({ dynamicLibraries: [] });
const FREE = '/usr/share/color/icc/';

/** Profiles under test: our own writer's, free ones (kept in the JSON), and the library's CMYK. */
const profiles = {
  srgb: { bytes: writeProfile(DELIVERY_SPACES.srgb), channels: 3 },
  'display-p3': { bytes: writeProfile(DELIVERY_SPACES['display-p3']), channels: 3 },
  'a98-rgb': { bytes: writeProfile(DELIVERY_SPACES['a98-rgb']), channels: 3 },
  'LStar-RGB': { bytes: readFileSync(`${FREE}LStar-RGB.icc`), channels: 3, keep: true },
  Gray: { bytes: readFileSync(`${FREE}Gray.icc`), channels: 1, keep: true },
  'Gray-CIE_L': { bytes: readFileSync(`${FREE}Gray-CIE_L.icc`), channels: 1, keep: true },
  'made-table': { bytes: makeTableProfile(), channels: 3 },
  cmyk: { bytes: vips.Image.profileLoad('cmyk'), channels: 4 },
};
vips.shutdown();

let state = 7;
const random = () => {
  state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
  return state / 2 ** 32;
};

function codesFor(channels) {
  const all = [0, 255].map((v) => Array(channels).fill(v));
  for (let c = 0; c < channels && channels > 1; c++)
    all.push(Array.from({ length: channels }, (_, i) => (i === c ? 255 : 0)));
  while (all.length < 48) all.push(Array.from({ length: channels }, () => Math.floor(random() * 256)));
  return all;
}

const out = {
  source:
    'LittleCMS 2.14, transicc -t1 -c0 -n to *XYZ (Debian liblcms2-utils 2.14-2); profiles LStar-RGB, Gray, Gray-CIE_L from Debian icc-profiles-free 2.0.1 (zlib licence), cmyk from the imaging library',
  profiles: {},
};
for (const [name, { bytes, channels, keep }] of Object.entries(profiles)) {
  const file = join(folder, `${name}.icc`);
  writeFileSync(file, bytes);
  const codes = codesFor(channels);
  const scale = channels === 4 ? 100 / 255 : 1; // inks are told in percent
  const input = codes
    .flat()
    .map((v) => (v * scale).toFixed(10))
    .join('\n');
  const text = execFileSync('transicc', ['-t1', '-c0', '-n', `-i${file}`, '-o*XYZ'], {
    input,
    encoding: 'utf8',
  });
  const xyz = text
    .trim()
    .split('\n')
    .map((line) => line.trim().split(/\s+/).map(Number))
    .filter((row) => row.length === 3 && row.every(Number.isFinite));
  if (xyz.length !== codes.length)
    throw new Error(`${name}: ${xyz.length} answers to ${codes.length} questions`);
  out.profiles[name] = { ...(keep ? { base64: Buffer.from(bytes).toString('base64') } : {}), codes, xyz };
}
writeFileSync(new URL('./lcms.json', import.meta.url), `${JSON.stringify(out)}\n`);
