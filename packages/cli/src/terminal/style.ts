import { WriteStream } from 'node:tty';
import { Chalk, type ChalkInstance, type ColorSupportLevel } from 'chalk';

/** What a report may use of a terminal. */
export interface Style {
  readonly paint: ChalkInstance;
  /** True where a picture's own colours can be shown. */
  readonly colours: boolean;
  /** Characters in a line. */
  readonly width: number;
}

const LINE = 72;

/** No colour and no weight: for pipes and files. */
export const PLAIN: Style = { paint: new Chalk({ level: 0 }), colours: false, width: LINE };

/**
 * The style of an output stream. Node reads NO_COLOR, FORCE_COLOR, TERM and COLORTERM the way other
 * command lines do; a pipe is plain unless FORCE_COLOR asks for colour.
 */
export function styleOf(
  stream: { isTTY?: boolean; columns?: number },
  env: NodeJS.ProcessEnv = process.env,
): Style {
  const asked = env.FORCE_COLOR !== undefined;
  if (!stream.isTTY && !asked) return PLAIN;
  const level = LEVELS[WriteStream.prototype.getColorDepth.call(stream, env)] ?? 0;
  const width = Math.min(LINE, Math.max(40, stream.columns ?? LINE));
  return { paint: new Chalk({ level }), colours: level >= 2, width };
}

const LEVELS: Record<number, ColorSupportLevel> = { 1: 0, 4: 1, 8: 2, 24: 3 };
