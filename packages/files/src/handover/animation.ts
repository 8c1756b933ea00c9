import { FileTrouble } from '../trouble.ts';
import type { Codec } from '../types.ts';
import { openWitness, type Witness } from './witness.ts';

/** A picture of an animation as it was meant: code values, row-major. */
export interface MeantFrame {
  readonly channels: 3 | 4;
  readonly data: Uint8Array;
}

/** As it is encoded: coarse steps of colour are kept. */
const QUALITY = 90;

/**
 * Decodes an animation again and holds its pictures against those that were meant, by place within 2 %. An encoder
 * may leave a picture out that looks like the one before; nothing else may be missing.
 *
 * @throws FileTrouble when it does not read back as it was meant
 */
export async function holdAnimation(
  codec: Codec,
  bytes: Uint8Array,
  frames: readonly MeantFrame[],
  width: number,
  height: number,
  name: string,
): Promise<void> {
  const back = await codec.readCodes(bytes, 'all');
  const planes = back.channels === 4 ? 4 : 3;
  const count = back.height / height;
  const fits = back.width === width && Number.isInteger(count) && back.depth === 8;
  const length = width * height * planes;
  const read = Array.from({ length: fits ? count : 0 }, (_, k) =>
    seen(planes, width, height, back.data.subarray(length * k, length * (k + 1)) as Uint8Array),
  );
  let at = 0;
  const found = frames.every(({ channels, data }, k) => {
    const meant = seen(channels, width, height, data);
    const near = (place: number): boolean => read[place]?.isNear(meant, 8, QUALITY) ?? false;
    if (k > 0 && near(at + 1)) at++;
    return near(at);
  });
  if (found && at === read.length - 1) return;
  throw new FileTrouble(
    'write',
    `“${name}” did not read back as it was meant.`,
    'Nothing was kept. Please tell the makers of Halflight.',
  );
}

function seen(channels: 3 | 4, width: number, height: number, data: Uint8Array): Witness {
  const witness = openWitness(width, height, channels, { alpha: channels === 4 });
  witness.see(data, 0, height);
  return witness;
}
