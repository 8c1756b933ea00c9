import { writeDossier } from '@halflight/files/dossier';
import type { Work } from '../../document/work.ts';
import { thingsOf } from '../../document/work.ts';

/** The work of one student as a dossier: the picture as it was handed in, with the intent of the assignment. */
export async function dossierOf(
  work: Work,
  bytes: ReadonlyMap<string, Blob>,
  written: string,
): Promise<Blob> {
  const { readable, writable } = new TransformStream<Uint8Array, Uint8Array>();
  const things = thingsOf(work).flatMap((hash) => {
    const blob = bytes.get(hash);
    return blob
      ? [
          {
            hash,
            bytes: blob.size,
            mediaType: blob.type || 'application/octet-stream',
            open: () => blob.stream() as ReadableStream<Uint8Array>,
          },
        ]
      : [];
  });
  const whole = new Response(readable as ReadableStream<Uint8Array<ArrayBuffer>>).blob();
  await writeDossier(writable, { work, things, writer: 'Halflight', written });
  return whole;
}
