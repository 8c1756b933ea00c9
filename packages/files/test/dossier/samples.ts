import { createHash } from 'node:crypto';
import { type DossierDraft, type NewThing, writeDossier } from '../../src/dossier/index.ts';
import { newWork, type Version, type Work } from '../../src/dossier/work.ts';

export const sha256 = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

/** Bytes that look like noise, the same for the same seed. */
export function noise(length: number, seed = 1): Uint8Array {
  let state = seed;
  return Uint8Array.from({ length }, () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state >>> 24;
  });
}

export function thing(bytes: Uint8Array, mediaType = 'image/png'): NewThing {
  return { hash: sha256(bytes), bytes: bytes.length, mediaType, open: () => bytes };
}

export function version(bytes: Uint8Array, change: Partial<Version> = {}): Version {
  return {
    number: 1,
    name: 'ferry.png',
    hash: sha256(bytes),
    bytes: bytes.length,
    mediaType: 'image/png',
    width: 300,
    height: 200,
    depth: 8,
    profile: 'sRGB',
    tagged: true,
    added: '2026-03-01T10:00:00.000Z',
    ...change,
  };
}

export const first = noise(5000);
export const readings = new TextEncoder().encode(
  JSON.stringify({ schema: 'halflight/check@1', findings: [] }),
);
export const work: Work = newWork('w1', 'Ferry landing', version(first, { readings: sha256(readings) }));

export const draft: Omit<DossierDraft, 'older'> = {
  work,
  things: [thing(first), thing(readings, 'application/json')],
  writer: 'Halflight',
  written: '2026-03-01T10:00:00.000Z',
};

/** A dossier in memory. */
export async function packed(what: DossierDraft = draft): Promise<Uint8Array<ArrayBuffer>> {
  const pieces: Uint8Array<ArrayBuffer>[] = [];
  const sink = new WritableStream<Uint8Array>({ write: (chunk) => void pieces.push(Uint8Array.from(chunk)) });
  await writeDossier(sink, what);
  return new Uint8Array(await new Blob(pieces).arrayBuffer());
}
