import { luminanceOf } from '../../colour/cielab.ts';
import { cssHex } from '../../colour/css.ts';
import { round } from '../../drawings/arcs.ts';
import type { Drawing, Shape } from '../../drawings/drawing.ts';
import type { Reading, ReadingInput } from '../reading.ts';
import { describeValues } from './findings.ts';
import type { ValueValue } from './types.ts';

const WIDTH = 240;
const BAR = 22;
const GAP = 10;
const TALLEST = 220;

/** The picture in three tones next to a bar of its groups, dark at the foot, each as tall as its share. */
export function drawValues({ value }: Reading<ValueValue>, { views }: ReadingInput): Drawing {
  const { whole } = views;
  const scale = Math.min((WIDTH - BAR - GAP) / whole.width, TALLEST / whole.height);
  const width = round(whole.width * scale);
  const height = round(whole.height * scale);
  const shapes: Shape[] = [];
  if (value.tones.length > 0)
    shapes.push({
      kind: 'map',
      x: 0,
      y: 0,
      width,
      height,
      map: 'tones',
      palette: value.tones.map(grey),
    });
  let y = height;
  for (const group of value.groups) {
    const tall = height * group.share;
    y -= tall;
    shapes.push({
      kind: 'rect',
      x: width + GAP,
      y: round(y),
      width: BAR,
      height: round(tall),
      fill: { css: grey(group.L) },
    });
  }
  // A tone that happens to be that of the ground would have no end without an outline.
  shapes.push(outline(0, width, height), outline(width + GAP, BAR, height));
  return { width: width + GAP + BAR, height, shapes, sentence: describeValues(value) };
}

function outline(x: number, width: number, height: number): Shape {
  return { kind: 'rect', x: round(x), y: 0, width, height, fill: 'none', stroke: 'quiet' };
}

function grey(L: number): string {
  const y = luminanceOf(L);
  return cssHex([y, y, y]);
}
