import { expect, test } from 'vitest';
import { styleOf } from '../../src/terminal/style.ts';

const TERMINAL = { isTTY: true, columns: 100 };
const PIPE = { isTTY: false };

// NO_COLOR: no-color.org. FORCE_COLOR, TERM and COLORTERM: documentation of getColorDepth in Node's tty module.
test.each([
  [TERMINAL, { TERM: 'xterm-256color', COLORTERM: 'truecolor' }, 3],
  [TERMINAL, { TERM: 'xterm-256color' }, 2],
  [TERMINAL, { TERM: 'dumb' }, 0],
  [TERMINAL, { TERM: 'xterm-256color', COLORTERM: 'truecolor', NO_COLOR: '1' }, 0],
  [PIPE, { TERM: 'xterm-256color', COLORTERM: 'truecolor' }, 0],
  [PIPE, { FORCE_COLOR: '3' }, 3],
  [PIPE, { FORCE_COLOR: '0' }, 0],
] as const)('%o with %o paints at level %i', (stream, env, level) => {
  const { paint, colours } = styleOf(stream, env);
  expect(paint.level).toBe(level);
  expect(colours).toBe(level >= 2);
});

test.each([
  [30, 40],
  [60, 60],
  [200, 72],
])('on %i columns a line has %i characters', (columns, width) => {
  expect(styleOf({ isTTY: true, columns }, { TERM: 'xterm' }).width).toBe(width);
});
