import { ascii, viewOf } from './bytes.ts';
import type { Hints } from './hints.ts';

/**
 * The coded colour description of an AVIF picture: meta → iprp → ipco → colr of type nclx
 * (ISO/IEC 14496-12 section 12.1.5, ISO/IEC 23008-12). The first one counts: grids and alpha planes carry none
 * of their own or the same.
 */
export function avifHints(bytes: Uint8Array): Hints {
  const meta = find(bytes, 0, bytes.length, 'meta');
  if (!meta) return {};
  const iprp = find(bytes, meta.from + 4, meta.to, 'iprp'); // meta is a full box: four bytes of version and flags
  const ipco = iprp && find(bytes, iprp.from, iprp.to, 'ipco');
  if (!ipco) return {};
  const view = viewOf(bytes);
  for (let at = ipco.from; at < ipco.to; ) {
    const colr = find(bytes, at, ipco.to, 'colr');
    if (!colr) break;
    if (ascii(bytes, colr.from, 4) === 'nclx')
      return {
        cicp: {
          primaries: view.getUint16(colr.from + 4),
          transfer: view.getUint16(colr.from + 6),
          beforeIcc: false,
        },
      };
    at = colr.to;
  }
  return {};
}

function find(
  bytes: Uint8Array,
  from: number,
  to: number,
  type: string,
): { from: number; to: number } | null {
  const view = viewOf(bytes);
  for (let at = from; at + 8 <= Math.min(to, bytes.length); ) {
    const small = view.getUint32(at);
    const size = small === 1 ? Number(view.getBigUint64(at + 8)) : small === 0 ? to - at : small;
    const head = small === 1 ? 16 : 8;
    if (size < head) return null;
    if (ascii(bytes, at + 4, 4) === type) return { from: at + head, to: Math.min(to, at + size) };
    at += size;
  }
  return null;
}
