import { EMPTY_RECIPE, type HandoverSettings } from '@halflight/engine';
import type { Codec } from '@halflight/files';
import { canOpenCodec, openCodec, openPlainCodec, VIPS_FOLDER } from '@halflight/files/browser';
import { writePicture } from '@halflight/files/handover';
import { digest } from '../digest.ts';

export interface Question {
  readonly codec: 'full' | 'plain';
  readonly name: string;
  readonly bytes: string;
  /** Formats to write the decoded picture in; each is read back and digested. */
  readonly encode?: readonly ('png' | 'tiff' | 'webp' | 'jpeg' | 'avif')[];
  /** Settings to hand the picture over with, and the profile they name. */
  readonly handOver?: { readonly settings: readonly HandoverSettings[]; readonly profile: string };
}

const codecs: { full?: Promise<Codec>; plain?: Promise<Codec> } = {};

self.onmessage = async ({ data: { id, base, question } }) => {
  self.postMessage({ id, answer: await answer(base, question) });
};

async function answer(
  base: string,
  { codec: kind, name, bytes, encode = [], handOver }: Question,
): Promise<object> {
  try {
    codecs[kind] ??=
      kind === 'full' ? openCodec({ folder: new URL(VIPS_FOLDER, base) }) : Promise.resolve(openPlainCodec());
    const codec = await codecs[kind];
    const input = fromBase64(bytes);
    const decoded = await codec.decode(input, { name });
    const written: Record<string, object> = {};
    for (const format of encode) {
      const file = await codec.encode(decoded.raster, { format, quality: 95 });
      written[format] = digest(await codec.decode(file, { name: `back.${format}` }));
    }
    const handed: object[] = [];
    for (const settings of handOver?.settings ?? []) {
      const profile = fromBase64(handOver?.profile ?? '');
      const made = await writePicture(codec, decoded, EMPTY_RECIPE, settings, { profile });
      handed.push({ name: made.name, ...digest(await codec.decode(made.bytes, { name: made.name })) });
    }
    return { canOpen: canOpenCodec(), ...digest(decoded), written, handed };
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

function fromBase64(text: string): Uint8Array {
  return Uint8Array.from(atob(text), (c) => c.charCodeAt(0));
}
