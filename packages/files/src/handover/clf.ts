import { DELIVERY_SPACES, type RecipeTable } from '@halflight/engine';
import { parseXml, XmlElement } from '@rgrove/parse-xml';
import { FileTrouble } from '../trouble.ts';
import { escaped } from './xmp.ts';

/**
 * An edit as a Common LUT Format file, version 3: one table of three dimensions, code values of a colour space in, of
 * the same space out. Tables begin on code values, whose steps are even to the eye, so that no shaper is needed.
 *
 * The text is read again by a parser of XML before anybody gets it.
 *
 * @throws FileTrouble when it does not read back as it was meant
 *
 * Source: SMPTE ST 2136-1:2024; Academy S-2014-006, "Common LUT Format (CLF)", version 3.0: ProcessList, LUT3D (blue
 * changes fastest), descriptors.
 */
export function writeClf(table: RecipeTable, title: string): string {
  const text = written(table, title);
  if (readsBack(text, table)) return text;
  throw new FileTrouble(
    'write',
    'The lookup table did not read back as it was meant.',
    'Nothing was kept. Please tell the makers of Halflight.',
  );
}

function written(table: RecipeTable, title: string): string {
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

/** Whether a reader of XML finds one table in it, with the codes that were meant. */
function readsBack(text: string, { size, data }: RecipeTable): boolean {
  const list = parseXml(text).root;
  const parts = list?.children.filter((child) => child instanceof XmlElement) ?? [];
  const tables = parts.filter(({ name }) => name === 'LUT3D');
  const arrays = tables.flatMap(({ children }) => children.filter((child) => child instanceof XmlElement));
  if (list?.name !== 'ProcessList' || arrays.length !== 1) return false;
  if (arrays[0].attributes.dim !== `${size} ${size} ${size} 3`) return false;
  const numbers = arrays[0].text.trim().split(/\s+/).map(Number);
  return (
    numbers.length === data.length &&
    numbers.every((code, i) => {
      const place = Math.floor(i / 3);
      const [b, g, r] = [place % size, Math.floor(place / size) % size, Math.floor(place / size ** 2)];
      return Math.abs(code - data[3 * (r + size * (g + size * b)) + (i % 3)]) <= 1e-6;
    })
  );
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
