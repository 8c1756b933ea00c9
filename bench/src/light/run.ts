/**
 * `npm run bench:light`: the figures of the light reading on rendered scenes with known truth.
 *
 * --only clean|neutral|opposite   these pictures only
 * --finish plain|jitter|brush     with this finish only
 * --scenes 03,17                  scenes whose name starts so
 * --part tuned|held               one part of the seeds
 * --declared                      with the scene's true light declared, as by two taps on a white thing
 * --labels DIR                    score label maps written by another program (see answer.ts) instead of ours
 * --out DIR                       write an overlay for every picture
 * --export DIR                    write all pictures with their truth, and stop
 * --write NAME                    put the table into docs/light.md, between the marks of that name
 */
import { mkdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { type Answerer, fromFolder, ours } from './answer.ts';
import { trueLightOf } from './declared.ts';
import { score } from './metrics.ts';
import { writeOverlay } from './overlay.ts';
import { FINISHES } from './picture.ts';
import { SCENES } from './scenes.ts';
import { exportStore, openStore, pictureName, type Store } from './store.ts';
import { figures, perPicture, type Scored, tableOf, type WithoutScored } from './summary.ts';

const { values: options } = parseArgs({
  options: {
    only: { type: 'string' },
    finish: { type: 'string' },
    scenes: { type: 'string' },
    part: { type: 'string' },
    declared: { type: 'boolean' },
    labels: { type: 'string' },
    out: { type: 'string' },
    export: { type: 'string' },
    write: { type: 'string' },
  },
});

const chosen = SCENES.filter(
  (s) =>
    (!options.scenes || options.scenes.split(',').some((p) => s.name.startsWith(p))) &&
    (!options.part || s.heldOut === (options.part === 'held')),
);
const store = await openStore(options.export ? SCENES : chosen);
if (options.export) {
  await exportStore(store, options.export);
  console.log(`Written to ${options.export}.`);
} else {
  const answerer = options.labels
    ? fromFolder(options.labels)
    : ours(options.declared ? trueLightOf : undefined);
  if (options.out) await mkdir(options.out, { recursive: true });
  const scored = await scoreScenes(store, answerer);
  const narrowed = options.only || options.scenes || options.part || options.declared;
  const without = narrowed ? [] : await scoreWithout(store, answerer);
  const text = [perPicture(scored), '', tableOf(figures(scored))];
  if (without.length > 0) text.push('', withoutLine(without));
  console.log(text.join('\n'));
  if (options.write) await writeInto(options.write, [text[2]!, ...text.slice(3)].join('\n'));
}

async function scoreScenes(from: Store, answerer: Answerer): Promise<Scored[]> {
  const out: Scored[] = [];
  for (const spec of chosen) {
    const record = await from.record(spec);
    for (const plant of record.plants) {
      if (options.only && options.only !== plant) continue;
      const truth = await from.truth(`${spec.name}.${plant}`);
      for (const finish of FINISHES) {
        if (options.finish && options.finish !== finish) continue;
        const name = pictureName(spec, plant, finish);
        const picture = await from.picture(name);
        const right = plant === 'clean' ? picture : await from.picture(pictureName(spec, 'clean', finish));
        const answer = await answerer(name, picture);
        out.push({
          name,
          plant,
          finish,
          heldOut: spec.heldOut,
          neutralLight: spec.light === 'neutral',
          score: score(
            answer,
            truth,
            record.shift,
            picture.rgb,
            right.rgb,
            Math.max(record.width, record.height),
          ),
        });
        if (options.out)
          await writeOverlay(
            join(options.out, `${name}.png`),
            picture.rgb,
            record.width,
            record.height,
            answer,
            truth,
          );
      }
    }
  }
  return out;
}

async function scoreWithout(from: Store, answerer: Answerer): Promise<WithoutScored[]> {
  const out: WithoutScored[] = [];
  for (const { name } of await from.without()) {
    const picture = await from.picture(name);
    const answer = await answerer(name, picture);
    let flagged = 0;
    for (let i = 0; i < answer.flagged.neutral.length; i++)
      if (answer.flagged.neutral[i] || answer.flagged.opposite[i]) flagged++;
    out.push({ name, stated: answer.shift !== null, flaggedShare: flagged / answer.flagged.neutral.length });
    if (options.out)
      await writeOverlay(
        join(options.out, `${name}.png`),
        picture.rgb,
        picture.width,
        picture.height,
        answer,
        null,
      );
  }
  return out;
}

function withoutLine(without: readonly WithoutScored[]): string {
  const wrong = without.filter((w) => w.stated || w.flaggedShare > 0);
  const names = wrong.map(
    (w) =>
      `${w.name} (${w.stated ? 'states a light' : 'flags'}, ${(100 * w.flaggedShare).toFixed(1)} % flagged)`,
  );
  return `Abstains on ${without.length - wrong.length} of ${without.length} pictures without evidence${wrong.length > 0 ? `; not on ${names.join(', ')}` : ''}.`;
}

/** Replaces what stands between `<!-- NAME -->` and `<!-- /NAME -->`. */
async function writeInto(name: string, text: string): Promise<void> {
  const file = new URL('../../../docs/light.md', import.meta.url);
  const [open, close] = [`<!-- ${name} -->`, `<!-- /${name} -->`];
  const old = await readFile(file, 'utf8');
  const from = old.indexOf(open);
  const to = old.indexOf(close);
  if (from < 0 || to < 0) throw new Error(`docs/light.md has no marks ${open} and ${close}.`);
  await writeFile(file, `${old.slice(0, from + open.length)}\n${text}\n${old.slice(to)}`);
}
