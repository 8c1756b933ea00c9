import { spawn } from 'node:child_process';
import { copyFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { openDossierFile } from '../../../files/src/node/index.ts';
import { newFolder } from '../commandLine.ts';

const ADDER = fileURLToPath(new URL('./adder.mjs', import.meta.url));
const FIRST = fileURLToPath(
  new URL('../../../files/test/dossier/fixtures/version-1.halflight', import.meta.url),
);
/** Kills of a usual run, to keep it short; docs/dossier.md tells of a long one. */
const KILLS = Number(process.env.HALFLIGHT_KILLS ?? 10);

/** Runs the adder until it is killed in its so-many-eth use of the file system; gives the last version it told. */
function killAt(path: string, call: number): Promise<number> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [ADDER, path, String(call)], { stdio: ['ignore', 'pipe', 'pipe'] });
    let told = '';
    let trouble = '';
    child.stderr.on('data', (chunk) => {
      trouble += chunk;
    });
    child.stdout.on('data', (chunk) => {
      told += chunk;
    });
    child.once('close', (_, signal) => {
      if (signal === 'SIGKILL') resolve(Number(told.trim().split('\n').at(-1) ?? 0));
      else reject(new Error(trouble));
    });
  });
}

test(`killed at ${KILLS} moments while it writes, a dossier opens whole, with all that was told`, async () => {
  let seed = 20260301;
  const random = (): number => {
    seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
    return seed / 2 ** 32;
  };
  const folder = newFolder();
  const path = join(folder, 'ferry.halflight');
  copyFileSync(FIRST, path);
  let versions = 2;
  for (let k = 0; k < KILLS; k++) {
    const told = await killAt(path, 1 + Math.floor(60 * random()));
    const dossier = await openDossierFile(path);
    expect(await dossier.verify()).toEqual([]);
    const there = dossier.work.versions.length;
    await dossier.close();
    // What was told is on the disk; at most the version that was being written may be there besides.
    const least = Math.max(versions, told);
    expect([least, least + 1]).toContain(there);
    versions = there;
  }
  // The kills came while it was writing: most left a draft behind, which is never taken for a dossier.
  const drafts = readdirSync(folder).filter((name) => name !== 'ferry.halflight');
  for (const name of drafts) expect(name).toMatch(/^\..+\.part$/);
  expect(drafts.length).toBeGreaterThan(KILLS / 2);
});
