import { join } from 'node:path';
import { type ExaminedReading, type Field, READINGS, type View } from '@halflight/engine';
import { encodeGreyPng, writeAtomically } from '@halflight/files/node';
import type { MapPlace } from './readings.ts';

/** Writes every map of a reading as NAME.SUFFIX.png: 8-bit grey, white = flagged, of the close view's size. */
export async function writeMaps(
  { folder, name }: MapPlace,
  { id, reading }: Pick<ExaminedReading, 'id' | 'reading'>,
  { width, height }: Pick<View, 'width' | 'height'>,
): Promise<void> {
  const files = READINGS.find((kind) => kind.id === id)!.mapFiles;
  for (const [map, suffix] of Object.entries(files)) {
    // A reading that abstains flags nothing: its map is black, and scripts find the file all the same.
    const field = reading.maps[map]?.();
    const grey = field ? greyOf(field, width, height) : new Uint8Array(width * height);
    await writeAtomically(join(folder, `${name}.${suffix}.png`), await encodeGreyPng(grey, width, height));
  }
}

/** A field as grey codes 0…255 of another size; every place takes the nearest value, so that groups stay groups. */
export function greyOf(field: Field, width: number, height: number): Uint8Array {
  const grey = new Uint8Array(width * height);
  for (let y = 0; y < height; y++) {
    const row = Math.floor(((y + 0.5) * field.height) / height) * field.width;
    for (let x = 0; x < width; x++) {
      const at = row + Math.floor(((x + 0.5) * field.width) / width);
      grey[y * width + x] = Math.round(255 * Math.min(1, Math.max(0, field.data[at])));
    }
  }
  return grey;
}
