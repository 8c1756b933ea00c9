import { crc32 } from 'node:zlib';
import { work } from '../../../packages/files/test/dossier/samples.ts';
import { commandWords } from '../../../packages/web/src/document/commands.ts';
import { memoryFiles } from '../../../packages/web/src/storage/files.ts';
import { keepNew, openKept, write } from '../../../packages/web/src/storage/kept.ts';
import { changeBytes } from '../bytes.ts';
import { changeJson } from '../json.ts';
import { expectThat, type Kind } from '../kind.ts';
import { INTENTS, RECIPES } from '../samples.ts';

const answer = {
  key: 'value.flat',
  kind: 'meantSo',
  severity: 0.5,
  reading: 'value',
  sentence: 'Flat.',
  version: 1,
  at: '2026-03-01T10:00:00.000Z',
};
const exposure = { kind: 'exposure', on: true, strength: 1, values: { stops: 0.3 } };
const COMMANDS = [
  { kind: 'rename', title: 'Ferry landing, evening' },
  { kind: 'answer', answers: [answer] },
  { kind: 'takeBack', key: 'value.flat' },
  { kind: 'decide', part: 'mood', intent: INTENTS[0] },
  { kind: 'setState', state: 'resting' },
  { kind: 'addStep', title: 'exposure', step: exposure },
  { kind: 'moveStep', title: 'exposure', at: 0, to: 0 },
  { kind: 'removeStep', title: 'exposure', at: 0 },
  { kind: 'takeRecipe', title: 'edit', recipe: RECIPES[0] },
];
/** A line or a snapshot with its checksum, which a change has to get past. */
const seal = (text: string): string => `${crc32(text).toString(16).padStart(8, '0')} ${text}`;
const ENTRIES = [...COMMANDS.map((command) => ({ kind: 'do', command })), { kind: 'undo' }, { kind: 'redo' }];

/** A work as the browser keeps it: a snapshot and a journal, of which either is damaged or says odd things. */
export async function keptKind(): Promise<Kind> {
  const base = structuredClone(work);
  const snapshot = { schema: 'halflight/kept@1', line: 0, base, done: COMMANDS.slice(0, 3), undone: [] };
  const text = (bytes: Uint8Array): string => new TextDecoder().decode(bytes);
  return {
    make(chance) {
      const changed = chance.maybe(0.5) ? text(changeJson(snapshot, chance)) : JSON.stringify(snapshot);
      const lines = Array.from({ length: chance.below(5) }, (_, k) => {
        const entry = chance.one(ENTRIES);
        const line = chance.maybe(0.4) ? text(changeJson(entry, chance)) : JSON.stringify(entry);
        return `${seal(`${k + 1} ${line}`)}\n`;
      });
      const whole = new TextEncoder().encode(`${seal(changed)}\n${lines.join('')}`);
      return chance.maybe(0.3) ? changeBytes(whole, chance) : whole;
    },
    async feed(bytes) {
      const files = memoryFiles();
      await keepNew(files, 'works/w', work);
      // The newer of two snapshots is the input's; the older one is whole.
      const cut = bytes.indexOf(10);
      await files.write('works/w/b', bytes.subarray(0, cut < 0 ? bytes.length : cut));
      await files.write('works/w/journal', cut < 0 ? new Uint8Array() : bytes.subarray(cut + 1));
      const kept = await openKept(files, 'works/w');
      expectThat(kept !== null, 'a damaged copy that takes the whole one along');
      for (const command of kept!.history.done)
        expectThat(commandWords(command) !== '', 'a step without words');
      const next = await write(files, 'works/w', kept!, {
        kind: 'do',
        command: { kind: 'rename', title: 'x' },
      });
      const again = await openKept(files, 'works/w');
      expectThat(
        JSON.stringify(again?.history.present) === JSON.stringify(next.history.present),
        'a work that comes back as another',
      );
      return 'read';
    },
  };
}
