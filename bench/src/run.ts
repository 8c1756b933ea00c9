// `npm run bench [ROWS…]`: the figures of the house in one table; ratios against references of the same run. Rows that
// take minutes (LONG) run when they are named, and all of them with `npm run bench all`.
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

/** Hundreds of works, whole searches, pairs of scenes: too long for the five minutes that a bench may take. */
const LONG = ['proposal', 'lightSheet', 'growth', 'works'];

const named = process.argv.slice(2);
const unknown = named.filter((name) => !(name in ROWS) && name !== 'all');
if (unknown.length > 0) {
  console.error(
    `There are no rows “${unknown.join(', ')}”. There are: ${[...Object.keys(ROWS), 'all'].join(', ')}.`,
  );
  process.exit(2);
}

const isWanted = (name: string): boolean =>
  named.includes('all') || (named.length > 0 ? named.includes(name) : !LONG.includes(name));

const figures: Figure[] = [];
for (const [name, rows] of Object.entries(ROWS).filter(([it]) => isWanted(it))) {
  console.error(`${name} …`);
  const from = performance.now();
  figures.push(...(await rows()));
  console.error(`  ${((performance.now() - from) / 1000).toFixed(0)} s`);
}
const processors = cpus();
console.log(
  `\n${processors.length} cores (${processors[0].model.trim()}), Node ${process.versions.node}, ${new Date().toISOString().slice(0, 10)}\n`,
);
console.log(table(figures));
// The libraries keep threads of their own; nothing is left to do.
process.exit(0);
