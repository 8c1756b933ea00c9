import { linearToCielab, luminance } from '../../colour/cielab.ts';
import { cssHex } from '../../colour/css.ts';
import type { Triple } from '../../colour/matrix.ts';
import { round } from '../../drawings/arcs.ts';
import type { Drawing, Shape } from '../../drawings/drawing.ts';
import type { Reading } from '../reading.ts';
import { logColour } from './logColour.ts';
import { wayOf, wayOfPlace } from './shadeColours.ts';
import type { Shift } from './types.ts';
import type { LightValue } from './value.ts';
import { shiftInWords } from './words.ts';

const WIDTH = 280;
const HEIGHT = 132;
const MARGIN = 22;
/** Room for the longest label beside its dot. */
const SIDE = 88;

/**
 * One surface on its way from light (above) into shade (below): to the side what the light does to its colour, drawn
 * through as this light does it, dashed as it is painted. Without a flagged place a middle grey goes the way.
 */
export function drawLight({ value }: Reading<LightValue>): Drawing {
  const { shift, q } = value;
  if (!shift || !q) return { ...nothing(), sentence: 'Two greys: no light is known that colours them.' };
  const place = value.places[0];
  const full = 1 + (q[0] + q[1] + q[2]) / 3;
  const grey: Triple = [0.6, 0.6, 0.6];
  const way = place ? wayOfPlace(place, q, 12) : wayOf(grey, q, luminance(...grey) / full, 12);
  const placed = axes([...way, ...(place ? [place.lit, place.now] : [])], shift);
  const at = way.map(placed);
  const shapes: Shape[] = [
    { kind: 'path', d: pathThrough(at), fill: 'none', stroke: 'ink', strokeWidth: 1.5 },
  ];
  const last = at[at.length - 1];
  if (place) {
    const now = placed([...place.now]);
    const from = placed([...place.lit]);
    shapes.push({
      kind: 'line',
      x1: from[0],
      y1: from[1],
      x2: now[0],
      y2: now[1],
      stroke: 'quiet',
      strokeWidth: 1.5,
      dashed: true,
    });
    shapes.push(dot(now, [...place.now]), label(now, 'now', last[0] > now[0] ? 'end' : 'start'));
  }
  const side = place && placed([...place.now])[0] < last[0] ? 'start' : 'end';
  shapes.push(dot(at[0], way[0]), label(at[0], 'lit', 'start'));
  shapes.push(dot(last, way[way.length - 1]), label(last, place ? 'in this light' : 'shade', side));
  const how = shiftInWords({ ...value, shift });
  return {
    width: WIDTH,
    height: HEIGHT,
    shapes,
    sentence: place
      ? `The largest place on its way from light into shade: in this light it ends ${cssHex([...place.should])}, painted it ends ${cssHex([...place.now])}.`
      : `A grey thing on its way from light into shade: lit sides are ${how}.`,
  };
}

function nothing(): Omit<Drawing, 'sentence'> {
  const grey = (y: number): Shape => ({
    kind: 'rect',
    x: WIDTH / 2 - 40,
    y,
    width: 80,
    height: 34,
    fill: { css: cssHex(y < 60 ? [0.4, 0.4, 0.4] : [0.12, 0.12, 0.12]) },
    stroke: 'quiet',
  });
  return { width: WIDTH, height: HEIGHT, shapes: [grey(28), grey(70)] };
}

/** Places colours: lightness upward, the colour along the shift to the right, both to fill the drawing. */
function axes(colours: readonly Triple[], shift: Shift): (colour: Triple) => [number, number] {
  const length = Math.hypot(shift.x, shift.y);
  const along = (c: Triple): number => {
    const { x, y } = logColour(...c);
    return (x * shift.x + y * shift.y) / length;
  };
  const light = (c: Triple): number => linearToCielab(c)[0];
  const u = colours.map(along);
  const v = colours.map(light);
  const span = (values: number[], least: number): [number, number] => {
    const low = Math.min(...values);
    const high = Math.max(...values);
    const room = Math.max(least, high - low);
    return [(low + high - room) / 2, room];
  };
  const [u0, du] = span(u, 0.3);
  const [v0, dv] = span(v, 15);
  return (c) => [
    round(SIDE + ((WIDTH - 2 * SIDE) * (along(c) - u0)) / du),
    round(HEIGHT - MARGIN - ((HEIGHT - 2 * MARGIN) * (light(c) - v0)) / dv),
  ];
}

const pathThrough = (points: readonly (readonly [number, number])[]): string =>
  points.map(([x, y], i) => `${i === 0 ? 'M' : 'L'}${x} ${y}`).join('');

function dot([cx, cy]: readonly [number, number], colour: Triple): Shape {
  return { kind: 'circle', cx, cy, r: 8, fill: { css: cssHex(colour) }, stroke: 'quiet' };
}

function label([x, y]: readonly [number, number], text: string, anchor: 'start' | 'end'): Shape {
  return { kind: 'text', x: anchor === 'start' ? x + 12 : x - 12, y: y + 4, text, anchor, fill: 'ink' };
}
