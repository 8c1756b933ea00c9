import { type FlattenStage, listOf, STAGES } from '@halflight/engine';
import { wrap } from '../terminal/wrap.ts';

const WIDTH = 72;

/** The stages as a table, and below it what each loses that can't be told in numbers. */
export function planText(stages: readonly FlattenStage[]): string {
  const longest = Math.max(...stages.map(({ name }) => STAGES[name].length));
  const lines = [
    'Fewer layers, step by step (code values on a small copy; CIEDE2000 of the whole, 1 is just seen):',
    `  ${'--stage'.padEnd(8)} ${''.padEnd(longest)}  layers  code values  whole`,
    ...stages.map(
      ({ name, layers, lost }) =>
        `  ${name.padEnd(8)} ${STAGES[name].padEnd(longest)}  ${String(layers).padStart(6)}  ${String(Math.round(lost.codes)).padStart(11)}  ${lost.mean.toFixed(1).padStart(5)}`,
    ),
    '',
  ];
  for (const [i, stage] of stages.entries()) {
    const said = lostText(stage, stages[i - 1]);
    if (said !== '') lines.push(wrap(`${stage.name}: ${said}`, WIDTH));
  }
  return `${lines.join('\n')}\n\n`;
}

/** What a stage closes that the one before left open. */
function lostText(stage: FlattenStage, before: FlattenStage | undefined): string {
  const fresh = (of: (one: FlattenStage) => readonly string[]): string[] =>
    of(stage).filter((path) => !before || !of(before).includes(path));
  const options = fresh(({ lost }) => lost.options);
  const effects = fresh(({ lost }) => lost.effects);
  const idle = fresh(({ dropped }) => dropped).filter((path) => !options.includes(path));
  const parts: string[] = [];
  if (idle.length > 0) parts.push(`${quoted(idle)} ${idle.length === 1 ? 'goes' : 'go'}.`);
  if (options.length > 0)
    parts.push(`${quoted(options)} can’t be chosen any more; --choose takes another one.`);
  if (effects.length > 0) parts.push(`${quoted(effects)} can’t be turned up and down any more.`);
  return parts.join(' ');
}

function quoted(paths: readonly string[]): string {
  return listOf(paths.map((path) => `“${path}”`));
}
