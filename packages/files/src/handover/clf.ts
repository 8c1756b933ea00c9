import { DELIVERY_SPACES, type RecipeTable } from '@halflight/engine';
import { escaped } from './xmp.ts';

/**
 * An edit as a Common LUT Format file, version 3: one table of three dimensions, code values of a colour space in, of
 * the same space out. Tables begin on code values, whose steps are even to the eye, so that no shaper is needed.
 *
 * Source: SMPTE ST 2136-1:2024; Academy S-2014-006, "Common LUT Format (CLF)", version 3.0: ProcessList, LUT3D (blue
 * changes fastest), descriptors.
 */
export function writeClf(table: RecipeTable, title: string): string {
  const { size, data, space, holds, leftOut, off } = table;
  const name = DELIVERY_SPACES[space].name;
  const words = (text: string) => `  <Description>${escaped(text)}</Description>\n`;
  const lines: string[] = [];
  for (let r = 0; r < size; r++)
    for (let g = 0; g < size; g++)
      for (let b = 0; b < size; b++) {
        const at = 3 * (r + size * (g + size * b));
        lines.push(`${digits(data[at])} ${digits(data[at + 1])} ${digits(data[at + 2])}`);
      }
  return `<?xml version="1.0" encoding="UTF-8"?>
<ProcessList compCLFversion="3" id="edit-${mark(data)}" name="${escaped(title).replace(/\n/g, ' ')}">
${words(holds.length > 0 ? `Holds: ${holds.join(', ')}.` : 'Holds no step.')}${
  leftOut.length > 0 ? words(`Left out, because they work in an area only: ${leftOut.join(', ')}.`) : ''
}${words(`Between its places: ${off.median.toFixed(2)} CIEDE2000 from the edit in the median.`)}  <InputDescriptor>${name} code values, 0 to 1</InputDescriptor>
  <OutputDescriptor>${name} code values, 0 to 1</OutputDescriptor>
  <LUT3D id="table" name="edit" interpolation="tetrahedral" inBitDepth="32f" outBitDepth="32f">
    <Array dim="${size} ${size} ${size} 3">
${lines.join('\n')}
    </Array>
  </LUT3D>
</ProcessList>
`;
}

function digits(v: number): string {
  return String(Math.round(1e6 * v) / 1e6);
}

/** A mark that differs when the table differs: FNV-1a of 32 bit (Fowler, Noll and Vo; RFC 9923). */
function mark(data: Float32Array): string {
  let hash = 0x811c9dc5;
  for (const v of data) hash = Math.imul(hash ^ Math.round(1e6 * v), 0x01000193);
  return (hash >>> 0).toString(16).padStart(8, '0');
}
