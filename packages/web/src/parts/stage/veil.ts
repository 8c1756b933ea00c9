import type { Place } from '@halflight/engine';
import type { SeenMap } from '../../picture/desk.ts';
import { contour } from './contour.ts';
import { outlineOf } from './places.ts';

/** How far the picture fades towards the wall where a map says nothing. */
const FADE = 0.74;

/**
 * What is laid over the picture to show a map: the wall's own grey, thick where the map is empty and absent
 * where it is full. Mixing with a neutral keeps the hue of what shows through.
 */
export function veilOfMap(map: SeenMap, grey: string): HTMLCanvasElement {
  const { canvas, context } = sheet(map.width, map.height);
  const image = context.createImageData(map.width, map.height);
  const value = greyValue(grey);
  for (let i = 0; i < map.data.length; i++) {
    image.data.fill(value, 4 * i, 4 * i + 3);
    image.data[4 * i + 3] = FADE * (255 - map.data[i]);
  }
  context.putImageData(image, 0, 0);
  return canvas;
}

/** The same with the rim of its places in lines, so that no colour need be told from its faded self. */
export function veilWithRim(map: SeenMap, grey: string, width: number, height: number): HTMLCanvasElement {
  const { canvas, context } = sheet(width, height);
  context.drawImage(veilOfMap(map, grey), 0, 0, width, height);
  const path = new Path2D(contour(map, width, height));
  // A dark hairline on a lighter one, as every mark on a painting.
  context.lineWidth = 3;
  context.strokeStyle = 'rgb(255 255 255 / 70%)';
  context.stroke(path);
  context.lineWidth = 1;
  context.strokeStyle = 'black';
  context.stroke(path);
  return canvas;
}

/** The same for places that are only known by their outlines. */
export function veilOfPlaces(places: readonly Place[], aspect: number, grey: string): HTMLCanvasElement {
  const width = 1024;
  const height = Math.max(1, Math.round(width / aspect));
  const { canvas, context } = sheet(width, height);
  const value = greyValue(grey);
  context.fillStyle = `rgb(${value} ${value} ${value} / ${FADE})`;
  context.fillRect(0, 0, width, height);
  context.globalCompositeOperation = 'destination-out';
  context.fillStyle = 'black';
  for (const place of places) {
    const outline = outlineOf(place);
    context.beginPath();
    for (let i = 0; i < outline.length; i += 2) context.lineTo(outline[i] * width, outline[i + 1] * height);
    context.fill();
  }
  return canvas;
}

function sheet(width: number, height: number) {
  const canvas = document.createElement('canvas');
  canvas.width = width;
  canvas.height = height;
  const context = canvas.getContext('2d');
  if (context === null) throw new Error('This browser gives no canvas to draw on.');
  return { canvas, context };
}

/** "#777777" to 119: every grey of ours has three equal channels. */
function greyValue(grey: string): number {
  return Number.parseInt(grey.trim().slice(1, 3), 16);
}
