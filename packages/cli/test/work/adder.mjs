// Adds versions to a dossier until it has used the file system so many times, and then kills itself where it stands:
// the other half of kill.test.ts.
import { createHash } from 'node:crypto';
import fs from 'node:fs/promises';
import { syncBuiltinESMExports } from 'node:module';

const [path, calls] = process.argv.slice(2);
let left = Number(calls);

/** Counts a function of the file system; at the last call it is begun, and the process ends while it runs. */
function counted(owner, name) {
  const real = owner[name];
  owner[name] = function (...args) {
    left--;
    if (left > 0) return real.apply(this, args);
    const running = real.apply(this, args);
    process.kill(process.pid, 'SIGKILL');
    return running;
  };
}
const probe = await fs.open(path, 'r');
for (const name of ['write', 'sync', 'close']) counted(Object.getPrototypeOf(probe), name);
await probe.close();
for (const name of ['open', 'rename']) counted(fs, name);
syncBuiltinESMExports();

const { openDossierFile, saveDossierFile } = await import('../../../files/dist/node/dossier.js');
for (;;) {
  const older = await openDossierFile(path);
  const { work } = older;
  const number = work.versions.length + 1;
  const bytes = new TextEncoder().encode(`version ${number} `.repeat(400));
  const hash = createHash('sha256').update(bytes).digest('hex');
  const version = { ...work.versions[0], number, hash, bytes: bytes.length };
  const things = [{ hash, bytes: bytes.length, mediaType: 'image/png', open: () => bytes }];
  await saveDossierFile(path, {
    older,
    work: { ...work, versions: [...work.versions, version] },
    things,
    writer: 'test',
    written: version.added,
  });
  await older.close();
  process.stdout.write(`${number}\n`);
}
