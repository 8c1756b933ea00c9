import { doesSentence, IDLE_WORDS, type LayerReading, listOf, type OptionPicture } from '@halflight/engine';
import { wrap } from '../terminal/wrap.ts';
import { ADVICE } from '../words.ts';
import type { LayersTold } from './run.ts';
import type { Sweep } from './settle.ts';

const WIDTH = 72;

/** The reading in a painter's words: what to decide first, then what each layer is worth. */
export function layersText(name: string, { reading, does, choices }: LayersTold): string {
  const { layers, options, merges } = reading;
  const count = layers.filter(({ group }) => !group).length;
  const lines: string[] = [`${name}: ${count} layer${count === 1 ? '' : 's'}`, ''];
  const say = (text: string): void => {
    lines.push(wrap(text, WIDTH), '');
  };
  const quoted = (paths: readonly string[]): string => listOf(paths.map((path) => `“${path}”`));
  const idle = layers.filter(({ redundant, visible }) => redundant && visible);
  const reasons = [...new Set(idle.map(({ why }) => why))].filter((why) => why !== null);
  const told = reasons.map(
    (why) => `${quoted(idle.filter((one) => one.why === why).map(({ path }) => path))} (${IDLE_WORDS[why]})`,
  );
  if (idle.length > 0)
    say(
      `${idle.length === 1 ? 'One layer shows' : `${idle.length} layers show`} nothing, even up close: ${told.join('; ')}. Take ${idle.length === 1 ? 'it' : 'them'} away one at a time and look.`,
    );
  for (const [i, set] of options.entries())
    say(
      `One of ${quoted(set)}: they stand for the same place and are never seen together. Choose one.${nearest(choices[i])}`,
    );
  const open = new Set(options.flat());
  const hidden = layers.filter(({ visible, path }) => !visible && !open.has(path)).map(({ path }) => path);
  if (hidden.length > 0) say(`Hidden and not missed: ${quoted(hidden)}.`);
  for (const set of merges) say(`Can be one layer without a visible change: ${quoted(set)}.`);
  const effects = layers.filter(
    ({ kind, visible, group, redundant }) => kind === 'effect' && visible && !group && !redundant,
  );
  if (effects.length > 0) say(`Stay apart as effects: ${quoted(effects.map(({ path }) => path))}.`);
  if (idle.length + options.length + hidden.length + merges.length === 0)
    say('Nothing is left open: every layer counts.');
  lines.push('What the whole picture loses without it (CIEDE2000; 1 is just seen):');
  const shown = layers.filter(({ visible }) => visible).sort((a, b) => b.worth.mean - a.worth.mean);
  const longest = Math.min(40, Math.max(...shown.map(({ path }) => path.length), 0));
  lines.push(`  ${''.padEnd(longest)}  mean  at most places below  of the area`);
  for (const one of shown) lines.push(rowOf(one, longest));
  const deeds = shown.flatMap(({ path }) => {
    const said = doesSentence(does.get(path) ?? []);
    return said === null ? [] : [wrap(`“${path}”: ${said}`, WIDTH)];
  });
  if (deeds.length > 0) lines.push('', 'What it does to the readings (without it → with it):', ...deeds);
  lines.push('', ADVICE);
  return `${lines.join('\n')}\n`;
}

/** What one layer is worth, told by two flat pictures. */
export function pairText({ name, worth, areaShare, redundant }: LayerReading): string {
  const area = areaShare > 0 && areaShare < 0.005 ? 'under 1 %' : `${Math.round(100 * areaShare)} %`;
  const says =
    areaShare === 0
      ? `“${name}” is the same with and without the layer: it shows nothing.`
      : `Without the layer the whole of “${name}” changes by ${worth.mean.toFixed(1)} on average and at most places by less than ${worth.p95.toFixed(1)} (CIEDE2000; 1 is just seen). It touches ${area} of the picture.${redundant ? ' Nobody would miss it, even up close.' : ''}`;
  return `${wrap(says, WIDTH)}\n\n${ADVICE}\n`;
}

/** How far the picture is from the intended mood at each hue and strength of a layer. */
export function sweepText({ path, turns, opacities, cells }: Sweep): string {
  const degrees = (turn: number): string =>
    turn === 0 ? 'own hue' : `${turn > 0 ? '+' : '−'}${Math.abs(turn)}°`;
  const close = `--settle "${path}=DEGREES,OPACITY" closes it.`;
  if (cells.every(({ distance }) => distance === null)) {
    const hues =
      turns.length > 1 ? `turned by ${listOf(turns.map((turn) => `${turn}°`))}` : 'grey: it has none to turn';
    return `${wrap(`Hue and strength of “${path}”: hues ${hues}; opacity ${listOf(opacities.map((one) => `${Math.round(100 * one)} %`))}. With --intent each is told by its distance from the mood, with --sheets as a picture. ${close}`, WIDTH)}\n`;
  }
  const lines = [
    wrap(
      `Hue and strength of “${path}”: hues across, opacity down, steps from the intended mood. ${close}`,
      WIDTH,
    ),
    `  ${''.padStart(6)}${turns.map((turn) => degrees(turn).padStart(9)).join('')}`,
    ...opacities.map((opacity, row) => {
      const told = cells.slice(row * turns.length, (row + 1) * turns.length);
      return `  ${`${Math.round(100 * opacity)} %`.padStart(6)}${told.map(({ distance }) => (distance === null ? '·' : distance.toFixed(1)).padStart(9)).join('')}`;
    }),
  ];
  return `${lines.join('\n')}\n`;
}

/** Which option suits the intended mood, in a sentence; empty while no mood is intended. */
function nearest(choices: readonly OptionPicture[]): string {
  const told = choices.flatMap(({ path, distance }) => (distance === null ? [] : [{ path, distance }]));
  if (told.length < 2) return '';
  told.sort((a, b) => a.distance - b.distance);
  const steps = told.map(({ path, distance }) => `“${path}” is ${distance.toFixed(1)}`);
  return ` Steps from the intended mood: ${listOf(steps)}.`;
}

function rowOf({ path, worth, areaShare }: LayerReading, longest: number): string {
  const label = path.length > longest ? `…${path.slice(1 - longest)}` : path.padEnd(longest);
  const area = areaShare > 0 && areaShare < 0.005 ? 'under 1 %' : `${Math.round(100 * areaShare)} %`;
  return `  ${label}  ${worth.mean.toFixed(1).padStart(4)}  ${worth.p95.toFixed(1).padStart(20)}  ${area.padStart(11)}`;
}
