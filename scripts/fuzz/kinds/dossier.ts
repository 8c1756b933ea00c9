import { bytesSource, openDossier, writeDossier } from '@halflight/files/dossier';
import { type RawEntry, rawZip } from '../../../packages/files/test/dossier/rawZip.ts';
import { first, packed, sha256, work } from '../../../packages/files/test/dossier/samples.ts';
import { bringIn } from '../../../packages/web/src/storage/dossiers.ts';
import { memoryFiles } from '../../../packages/web/src/storage/files.ts';
import { openKept } from '../../../packages/web/src/storage/kept.ts';
import { changeBytes } from '../bytes.ts';
import { changeJson } from '../json.ts';
import { expectThat, type Kind, refusing } from '../kind.ts';
import { INTENTS, RECIPES } from '../samples.ts';
import { changeZip } from '../zip.ts';

/** A dossier: opened, read through, written again, and brought onto a shelf. */
export async function dossierKind(): Promise<Kind> {
  const whole = await packed();
  const versions = work.versions.map(({ readings: _, ...rest }) => rest);
  const file = {
    hash: sha256(first),
    bytes: first.length,
    mediaType: 'image/png',
    path: 'pictures/first.png',
  };
  const manifests = [
    { ...work, versions },
    { ...work, versions, intent: INTENTS[0], recipe: RECIPES[0] },
  ].map((it) => ({
    schema: 'halflight/dossier@1',
    writer: 'Halflight',
    written: '2026-03-01T10:00:00.000Z',
    work: it,
    files: [file],
  }));
  return {
    make(chance) {
      if (chance.maybe(0.3)) return changeBytes(whole, chance);
      const manifest = changeJson(chance.one(manifests), chance);
      const entries: RawEntry[] = [
        { name: 'manifest.json', data: manifest, deflate: chance.maybe(0.5) },
        { name: file.path, data: first },
      ];
      return rawZip(chance.maybe(0.3) ? changeZip(entries, chance) : entries);
    },
    feed: (bytes) =>
      refusing(async () => {
        const source = bytesSource(bytes, 'ferry.halflight');
        const dossier = await openDossier(source);
        const troubles = await dossier.verify();
        if (troubles.length === 0) {
          const pieces: Uint8Array<ArrayBuffer>[] = [];
          const sink = new WritableStream<Uint8Array>({
            write: (piece) => void pieces.push(Uint8Array.from(piece)),
          });
          await writeDossier(sink, {
            work: dossier.work,
            things: [],
            older: dossier,
            writer: 'Halflight',
            written: '2026-03-02T10:00:00.000Z',
          });
          const again = new Uint8Array(await new Blob(pieces).arrayBuffer());
          const back = await openDossier(bytesSource(again, 'again.halflight'));
          expectThat(
            JSON.stringify(back.work) === JSON.stringify(dossier.work),
            'a work that changes when it is written again',
          );
        }
        const files = memoryFiles();
        const brought = await bringIn(files, source);
        const kept = await openKept(files, `works/${brought.work.id}`);
        expectThat(kept !== null, 'a work that is brought in and can’t be opened');
        for (const name of await files.list('works'))
          expectThat(!name.includes('..'), 'a name that leads out');
      }),
  };
}
