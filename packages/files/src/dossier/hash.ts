import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex } from '@noble/hashes/utils.js';

/** SHA-256 that is fed piece by piece. */
export interface Hasher {
  update(bytes: Uint8Array): unknown;
  /** In hexadecimal. */
  end(): string;
}

/** SHA-256 in plain JavaScript: the browser's own can't be fed piece by piece. */
export function plainHasher(): Hasher {
  const state = sha256.create();
  return { update: (bytes) => state.update(bytes), end: () => bytesToHex(state.digest()) };
}
