/** An RGB profile that colours reach through a table only: LUT16 (ICC.1:2010 section 10.8), 5 points a side. */
export function makeTableProfile() {
  const grid = 5;
  const numbers = [];
  const ramp = [0, 65535]; // input and output tables that change nothing
  for (let c = 0; c < 3; c++) numbers.push(...ramp);
  for (let r = 0; r < grid; r++)
    for (let g = 0; g < grid; g++)
      for (let b = 0; b < grid; b++)
        numbers.push(...mix(r / 4, g / 4, b / 4).map((v) => Math.round(v * 32768)));
  for (let c = 0; c < 3; c++) numbers.push(...ramp);
  const lut = Buffer.alloc(52 + 2 * numbers.length);
  lut.write('mft2', 0, 'latin1');
  lut.set([3, 3, grid, 0], 8);
  for (const i of [0, 4, 8]) lut.writeInt32BE(65536, 12 + 4 * i); // identity matrix
  lut.writeUInt16BE(2, 48);
  lut.writeUInt16BE(2, 50);
  for (const [i, v] of numbers.entries()) lut.writeUInt16BE(v, 52 + 2 * i);
  return withTags([
    ['desc', description('Made table')],
    ['wtpt', xyz(0.9642, 1, 0.8249)],
    ['cprt', text('CC0')],
    ['A2B0', lut],
  ]);
}

/** Something no curve and matrix can do: channels multiply. XYZ relative to D50. */
function mix(r, g, b) {
  const both = r * g;
  return [
    0.3 * r * r + 0.35 * g + 0.1 * b + 0.2 * both,
    0.25 * r + 0.5 * g * g + 0.05 * b + 0.2 * both,
    0.1 * g + 0.7 * b * b,
  ];
}

function withTags(tags) {
  const table = Buffer.alloc(4 + 12 * tags.length);
  table.writeUInt32BE(tags.length, 0);
  let at = 128 + table.length;
  tags.forEach(([name, data], i) => {
    table.write(name, 4 + 12 * i, 'latin1');
    table.writeUInt32BE(at, 8 + 12 * i);
    table.writeUInt32BE(data.length, 12 + 12 * i);
    at += data.length;
  });
  const header = Buffer.alloc(128);
  header.writeUInt32BE(at, 0);
  header.writeUInt32BE(0x02100000, 8);
  header.write('scnrRGB XYZ ', 12, 'latin1');
  header.write('acsp', 36, 'latin1');
  xyz(0.9642, 1, 0.8249).copy(header, 68, 8);
  return Buffer.concat([header, table, ...tags.map(([, data]) => data)]);
}

function xyz(...values) {
  const out = Buffer.alloc(20);
  out.write('XYZ ', 0, 'latin1');
  for (const [i, v] of values.entries()) out.writeInt32BE(Math.round(v * 65536), 8 + 4 * i);
  return out;
}

function description(words) {
  const out = Buffer.alloc(104 + ((words.length + 4) & ~3));
  out.write('desc', 0, 'latin1');
  out.writeUInt32BE(words.length + 1, 8);
  out.write(words, 12, 'latin1');
  return out;
}

function text(words) {
  const out = Buffer.alloc(12 + ((words.length + 4) & ~3) - 4);
  out.write('text', 0, 'latin1');
  out.write(words, 8, 'latin1');
  return out;
}
