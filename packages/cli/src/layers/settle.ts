import { findNode, type Intent, layerSweep, type SweepCell, smallStack, sweepAxes } from '@halflight/engine';
import { FileTrouble } from '@halflight/files';
import { type Gathered, setLayer } from '@halflight/files/layers';
import type { OpenRaster } from '@halflight/files/openraster';
import { InvalidArgumentError } from 'commander';

/** A layer that is closed at a hue and strength. */
export interface Settle {
  readonly path: string;
  /** Degrees that its hues are turned by. */
  readonly turn: number;
  /** 0…1. */
  readonly opacity: number;
}

/** The hues and strengths that are tried for one layer. */
export interface Sweep {
  readonly path: string;
  readonly turns: readonly number[];
  readonly opacities: readonly number[];
  /** Row by row. */
  readonly cells: readonly SweepCell[];
}

/** Long side of the small pictures of a sheet. */
export const SHEET_LONG_SIDE = 320;

/** Reads `fog=20,0.5`; for the command line's options. */
export function settleOf(text: string, before: readonly Settle[]): readonly Settle[] {
  const [, path, turn, opacity] = /^(.+)=(-?\d+(?:\.\d+)?),(\d*\.?\d+)$/.exec(text) ?? [];
  const one = { path, turn: Number(turn), opacity: Number(opacity) };
  if (path === undefined || Math.abs(one.turn) > 180 || one.opacity > 1)
    throw new InvalidArgumentError(
      'Write the path of the layer, an equals sign, the turn of its hues in degrees (−180 to 180), a comma and its opacity (0 to 1), as fog=20,0.5.',
    );
  return [...before, one];
}

/** The file with layers closed at what was chosen; the file itself stays as it is. */
export function settled(
  file: OpenRaster,
  settles: readonly Settle[],
  how: Parameters<typeof setLayer>[3],
): OpenRaster {
  return settles.reduce((now, { path, ...setting }) => setLayer(now, path, setting, how), file);
}

/**
 * The whole picture at several hues and strengths of one layer.
 *
 * @throws FileTrouble when there is none of that path
 */
export function sweepOf({ stack, space }: Gathered, path: string, intent: Intent): Sweep {
  const small = smallStack(stack, SHEET_LONG_SIDE);
  const node = findNode(small.nodes, path);
  if (node === null)
    throw new FileTrouble(
      'option',
      `There is no layer “${path}” to sweep.`,
      'Give its path as it is listed.',
    );
  return { path, ...sweepAxes(node), cells: [...layerSweep(small, space, path, intent)] };
}
