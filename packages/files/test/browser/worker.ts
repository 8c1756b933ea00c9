import type { Codec } from '@halflight/files';
import { canOpenCodec, openCodec, openPlainCodec, VIPS_FOLDER } from '@halflight/files/browser';
import { digest } from '../digest.ts';

export interface Question {
  readonly codec: 'full' | 'plain';
  readonly name: string;
  readonly bytes: string;
  /** Formats to write the decoded picture in; each is read back and digested. */
  readonly encode?: readonly ('png' | 'tiff' | 'webp' | 'jpeg' | 'avif')[];
}

const codecs: { full?: Promise<Codec>; plain?: Promise<Codec> } = {};

self.onmessage = async ({ data: { id, base, question } }) => {
  self.postMessage({ id, answer: await answer(base, question) });
};

async function answer(base: string, { codec: kind, name, bytes, encode = [] }: Question): Promise<object> {
  try {
    codecs[kind] ??=
      kind === 'full' ? openCodec({ folder: new URL(VIPS_FOLDER, base) }) : Promise.resolve(openPlainCodec());
    const codec = await codecs[kind];
    const input = Uint8Array.from(atob(bytes), (c) => c.charCodeAt(0));
    const decoded = await codec.decode(input, { name });
    const written: Record<string, object> = {};
    for (const format of encode) {
      const file = await codec.encode(decoded.raster, { format, quality: 95 });
      written[format] = digest(await codec.decode(file, { name: `back.${format}` }));
    }
    return { canOpen: canOpenCodec(), ...digest(decoded), written };
  } catch (error) {
    const { sentence, todo, message, cause } = error as {
      sentence?: string;
      todo?: string;
      message: string;
      cause?: unknown;
    };
    return { sentence, todo, message, cause: String(cause) };
  }
}
