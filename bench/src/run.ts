// `npm run bench`: every figure of the house in one table; ratios against references of the same run.
import { cpus } from 'node:os';
import { type Figure, type Rows, table } from './figure.ts';
import { appRows } from './rows/app.ts';
import { browserRows } from './rows/browser.ts';
import { checkRows } from './rows/check.ts';
import { classRows } from './rows/class.ts';
import { decodeRows } from './rows/decode.ts';
import { editRows } from './rows/edit.ts';
import { engineRows } from './rows/engine.ts';
import { growthRows } from './rows/growth.ts';
import { handoverRows } from './rows/handover.ts';
import { layersRows } from './rows/layers.ts';
import { lightSheetRows } from './rows/lightSheet.ts';
import { liveRows } from './rows/live.ts';
import { memoryRows } from './rows/memory.ts';
import { proposalRows } from './rows/proposal.ts';
import { shelfRows } from './rows/shelf.ts';
import { worksRows } from './rows/works.ts';

const ROWS: Readonly<Record<string, Rows>> = {
  decode: decodeRows,
  check: checkRows,
  engine: engineRows,
  edit: editRows,
  live: liveRows,
  proposal: proposalRows,
  layers: layersRows,
  lightSheet: lightSheetRows,
  memory: memoryRows,
  growth: growthRows,
  works: worksRows,
  handover: handoverRows,
  class: classRows,
  app: appRows,
  browser: browserRows,
  shelf: shelfRows,
};

const wanted = process.argv.slice(2);
const unknown = wanted.filter((name) => !(name in ROWS));
if (unknown.length > 0) {
  console.error(`There are no rows “${unknown.join(', ')}”. There are: ${Object.keys(ROWS).join(', ')}.`);
  process.exit(2);
}

const figures: Figure[] = [];
for (const [name, rows] of Object.entries(ROWS)) {
  if (wanted.length > 0 && !wanted.includes(name)) continue;
  console.error(`${name} …`);
  figures.push(...(await rows()));
}
const processors = cpus();
console.log(
  `\n${processors.length} cores (${processors[0].model.trim()}), Node ${process.versions.node}, ${new Date().toISOString().slice(0, 10)}\n`,
);
console.log(table(figures));
// The libraries keep threads of their own; nothing is left to do.
process.exit(0);
