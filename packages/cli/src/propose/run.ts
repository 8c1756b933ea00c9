import { readFile } from 'node:fs/promises';
import { basename, resolve } from 'node:path';
import {
  type Baseline,
  checkRecipe,
  examine,
  type Intent,
  type PictureFacts,
  type Proposal,
  propose as proposeEdit,
  readingInput,
} from '@halflight/engine';
import { holdRecipe } from '@halflight/files/handover';
import { openCodec, readPicture, writeAtomically } from '@halflight/files/node';
import { measure } from '../check/measure.ts';
import { tellTrouble } from '../check/outcome.ts';
import { readBaseline, readIntent } from '../inputs.ts';
import { openProgress } from '../terminal/progress.ts';
import { styleOf } from '../terminal/style.ts';
import { EXIT, WrongUse } from '../trouble.ts';
import { ADVICE } from '../words.ts';
import { lineOf } from './line.ts';
import { proposalText } from './text.ts';

export interface ProposeOptions {
  readonly intent?: string;
  readonly baseline?: string;
  readonly out?: string;
  readonly json?: boolean;
  readonly limit: number;
}

/** Proposes an edit for a picture, prints it and writes the recipe where it is wanted; gives the exit code. */
export async function propose(path: string, options: ProposeOptions): Promise<number> {
  const intent = await readIntent(options.intent);
  const baseline = await readBaseline(options.baseline);
  if (options.out !== undefined) await checkTarget(options.out, path);
  try {
    const { picture, notes, proposal } = await lookAndPropose(path, intent, baseline, options.limit);
    if (options.out !== undefined) {
      const json = `${JSON.stringify(proposal.recipe, null, 2)}\n`;
      holdRecipe(json, proposal.recipe, options.out);
      await writeAtomically(options.out, new TextEncoder().encode(json));
    }
    for (const note of notes) process.stderr.write(`${note}\n`);
    process.stdout.write(
      options.json
        ? `${lineOf(picture, proposal)}\n`
        : `${proposalText(picture, proposal, { path, out: options.out }, styleOf(process.stdout))}\n\n${ADVICE}\n`,
    );
    return EXIT.done;
  } catch (error) {
    return tellTrouble(error, basename(path));
  }
}

const TENTHS = 10;

async function lookAndPropose(
  path: string,
  intent: Intent,
  baseline: Baseline | null,
  limitMegapixels: number,
): Promise<{ picture: PictureFacts; notes: readonly string[]; proposal: Proposal }> {
  const codec = await openCodec();
  const progress = openProgress(TENTHS);
  try {
    const { raster, facts, notes } = await readPicture(path, { codec, limitMegapixels });
    const input = readingInput({ picture: facts, ...measure(raster), intent, baseline });
    const work = proposeEdit({ input, examination: examine(input) });
    for (let shown = 0; ; ) {
      const next = work.next();
      if (next.done) return { picture: facts, notes, proposal: next.value };
      for (; shown < Math.floor(TENTHS * next.value); shown++)
        progress.step(next.value < 0.45 ? 'trying edits' : 'reading the edited picture');
    }
  } finally {
    progress.end();
    codec.close();
  }
}

/** Only a recipe may be written over. */
async function checkTarget(out: string, path: string): Promise<void> {
  if (resolve(out) === resolve(path))
    throw new WrongUse(`“${out}” is the picture itself. Name another file for the recipe.`);
  let text: string;
  try {
    text = await readFile(out, 'utf8');
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'EISDIR')
      throw new WrongUse(`“${out}” is a folder. Name a file in it for the recipe.`);
    return;
  }
  if (!isRecipe(text))
    throw new WrongUse(
      `“${out}” is there already and is no recipe. Name another file, so that nothing is lost.`,
    );
}

function isRecipe(text: string): boolean {
  try {
    return checkRecipe(JSON.parse(text)).ok;
  } catch {
    return false;
  }
}
