import { BlobWriter, configure, Uint8ArrayReader, ZipWriter } from '@zip.js/zip.js/lib/zip-core-native.js';

// This is a worker already, and a strict page starts no scripts from text.
configure({ useWebWorkers: false });

/** Files as one ZIP that any program opens; pictures in them are packed already, so that they are only stored. */
export async function packFiles(
  files: AsyncIterable<{ readonly name: string; readonly bytes: Uint8Array }>,
  made: string,
): Promise<Blob> {
  const zip = new ZipWriter(new BlobWriter('application/zip'), {
    extendedTimestamp: false,
    lastModDate: new Date(made),
    level: 0,
  });
  for await (const { name, bytes } of files) await zip.add(name, new Uint8ArrayReader(bytes));
  return zip.close();
}
