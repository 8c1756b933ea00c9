import { BLEND_MODES, type BlendMode, type Operator } from '@halflight/engine';

/**
 * Values of `composite-op`: OpenRaster's, each a blend mode with source-over or an operator with the normal mode, and
 * the remaining ones of the W3C standard by the same rule.
 *
 * Source: OpenRaster Layer Stack specification 0.0.5 and W3C Compositing and Blending Level 1; the names of operators
 * that OpenRaster does not list are those of the older SVG Compositing Specification.
 */
const BLENDS = BLEND_MODES.filter((mode) => mode !== 'normal');
const OPERATORS: Readonly<Record<string, Operator>> = {
  clear: 'clear',
  src: 'copy',
  dst: 'destination',
  'src-over': 'source-over',
  'dst-over': 'destination-over',
  'src-in': 'source-in',
  'dst-in': 'destination-in',
  'src-out': 'source-out',
  'dst-out': 'destination-out',
  'src-atop': 'source-atop',
  'dst-atop': 'destination-atop',
  xor: 'xor',
  plus: 'lighter',
};

export interface Mode {
  readonly blend: BlendMode;
  readonly operator: Operator;
}

/** The mode of a `composite-op`; null for one that is not known here. */
export function modeOf(name: string): Mode | null {
  const short = name.replace(/^svg:/, '');
  const blend = BLENDS.find((mode) => mode === short);
  if (blend) return { blend, operator: 'source-over' };
  return Object.hasOwn(OPERATORS, short) ? { blend: 'normal', operator: OPERATORS[short] } : null;
}
