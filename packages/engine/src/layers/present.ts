import type { Act, Program } from './program.ts';

/** Tells from the alpha of layers alone how much of some parts stands at a place. */
export interface Presence {
  /** Goes to a row. */
  enter(y: number): void;
  /** Whether the parts from act `from` up to, without, `to` may do something at a place of the row. */
  some(range: number, x: number): boolean;
  /** Whether making them one may change something there: not where only one of them is, as it stands. */
  several(range: number, x: number): boolean;
}

/** A run of acts of a program. */
export interface ActRange {
  readonly from: number;
  readonly to: number;
}

/** Where a layer lies in the row; `width` 0 where it does not. */
interface Lying {
  readonly act: Act;
  /** Made one with nothing else it is the same. */
  readonly plain: boolean;
  data: Uint8Array | Uint16Array | null;
  left: number;
  width: number;
  start: number;
  channels: number;
}

export function presenceOf({ acts }: Program, ranges: readonly ActRange[]): Presence {
  const everywhere = ranges.map(({ from, to }) => acts.slice(from, to).some(({ local }) => !local));
  const lying = ranges.map(({ from, to }) =>
    acts.slice(from, to).flatMap((act): Lying[] => {
      if (!act.layer) return [];
      const { blend, operator, opacity } = act.node;
      const plain = blend === 'normal' && operator === 'source-over' && opacity === 1;
      return [{ act, plain, data: null, left: 0, width: 0, start: 0, channels: 4 }];
    }),
  );
  /** Groups that are put together on their own are told by what lies in them: as if it was not plain. */
  const grouped = ranges.map(({ from, to }) => acts.slice(from, to).some(({ kind }) => kind !== 'draw'));
  const isThere = (one: Lying, x: number): boolean => {
    const px = x - one.left;
    if (px < 0 || px >= one.width) return false;
    return one.channels !== 4 || one.data![one.start + 4 * px + 3] > 0;
  };
  return {
    enter(y) {
      for (const list of lying)
        for (const one of list) {
          const { raster, x, y: top } = one.act.layer!;
          const v = y - top;
          one.width = v >= 0 && v < raster.height ? raster.width : 0;
          one.left = x;
          one.data = raster.data;
          one.channels = raster.channels;
          one.start = raster.channels * v * raster.width;
        }
    },
    some(range, x) {
      if (everywhere[range]) return true;
      const list = lying[range];
      for (let i = 0; i < list.length; i++) if (isThere(list[i], x)) return true;
      return false;
    },
    several(range, x) {
      if (everywhere[range]) return true;
      const list = lying[range];
      let count = 0;
      for (let i = 0; i < list.length; i++)
        if (isThere(list[i], x) && (++count > 1 || !list[i].plain || grouped[range])) return true;
      return false;
    },
  };
}
