import type { Drawing, Shape } from '../../drawings/drawing.ts';
import type { Reading } from '../reading.ts';
import type { HeadroomValue } from './types.ts';

const WIDTH = 240;
const ROW = 26;
const MIDDLE = WIDTH / 2;
const LONGEST = 58;

interface Row {
  readonly left: string;
  readonly right: string;
  /** 0…1 of the longest bar; 1 = as far as one likes. */
  readonly reach: readonly [number, number];
}

/** A bar for each direction with how far it goes before a further 1 % clips; a bar at its full length is open-ended. */
export function drawHeadroom({ value: v }: Reading<HeadroomValue>): Drawing {
  const part = (amount: number | null, full: number): number =>
    amount === null ? 1 : Math.min(1, amount / full);
  const rows: Row[] = [
    { left: 'darker', right: 'lighter', reach: [part(v.exposureDown, 3), part(v.exposureUp, 3)] },
    { left: 'cooler', right: 'warmer', reach: [part(v.cooler, 100), part(v.warmer, 100)] },
    { left: 'turn right', right: 'turn left', reach: [part(v.hueTurnRight, 180), part(v.hueTurnLeft, 180)] },
    { left: '', right: 'chroma', reach: [0, part(v.chromaGain === null ? null : v.chromaGain - 1, 1)] },
    { left: '', right: 'contrast', reach: [0, part(v.contrast, 1)] },
  ];
  const shapes: Shape[] = rows.flatMap((row, k) => drawRow(row, k * ROW + ROW / 2));
  shapes.unshift({ kind: 'line', x1: MIDDLE, y1: 0, x2: MIDDLE, y2: rows.length * ROW, stroke: 'quiet' });
  return { width: WIDTH, height: rows.length * ROW, shapes, sentence: describeHeadroom(v) };
}

function drawRow({ left, right, reach }: Row, y: number): Shape[] {
  const bar = (x: number, width: number, fill: 'faint' | 'ink'): Shape => ({
    kind: 'rect',
    x,
    y: y - 3,
    width,
    height: 6,
    fill,
    stroke: 'quiet',
  });
  const shapes: Shape[] = [];
  if (left) {
    shapes.push(
      bar(MIDDLE - LONGEST, LONGEST, 'faint'),
      bar(MIDDLE - LONGEST * reach[0], LONGEST * reach[0], 'ink'),
    );
    shapes.push({ kind: 'text', x: 0, y: y + 4, text: left, anchor: 'start', fill: 'ink' });
  }
  shapes.push(bar(MIDDLE, LONGEST, 'faint'), bar(MIDDLE, LONGEST * reach[1], 'ink'));
  shapes.push({ kind: 'text', x: WIDTH, y: y + 4, text: right, anchor: 'end', fill: 'ink' });
  return shapes;
}

/** The bars in a sentence, for those who can't see them. */
function describeHeadroom(v: HeadroomValue): string {
  const far = (amount: number | null, unit: string, digits: number): string =>
    amount === null ? 'any' : `${amount.toFixed(digits)} ${unit}`;
  return (
    `Before a further hundredth of the picture clips there is room for ${far(v.exposureUp, 'stops', 1)} lighter and ` +
    `${far(v.exposureDown, 'stops', 1)} darker, ${far(v.warmer, 'mired', 0)} warmer and ${far(v.cooler, 'mired', 0)} cooler, ` +
    `a hue turn of ${v.hueTurnLeft.toFixed(0)}° left and ${v.hueTurnRight.toFixed(0)}° right, ` +
    `chroma ${v.chromaGain === null ? 'as one likes' : `× ${v.chromaGain.toFixed(2)}`}.`
  );
}
