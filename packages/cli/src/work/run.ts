import { randomUUID } from 'node:crypto';
import { newWork, titleFromName } from '@halflight/files';
import { openCodec, openDossierFile, saveDossierFile } from '@halflight/files/node';
import { readBaseline, readIntent } from '../inputs.ts';
import { WrongUse, withTrouble } from '../trouble.ts';
import { grow } from './grow.ts';
import { readForWork, takePicture } from './read.ts';
import { versionText } from './text.ts';

export interface NewOptions {
  readonly picture: string;
  readonly title?: string;
  readonly intent?: string;
  readonly baseline?: string;
  readonly limit: number;
}

/** Starts a work with its first picture, in a new dossier; gives the exit code. */
export async function startWork(path: string, options: NewOptions): Promise<number> {
  if (!/.\.halflight$/i.test(path))
    throw new WrongUse(`“${path}” should end in .halflight: that is what dossiers are called.`);
  const intent = await readIntent(options.intent);
  const baseline = await readBaseline(options.baseline);
  return withTrouble(async () => {
    const codec = await openCodec();
    try {
      const taken = await takePicture(options.picture, codec, options.limit);
      const read = await readForWork(taken, intent, baseline, []);
      const first = newWork(randomUUID(), options.title ?? titleFromName(taken.facts.name), {
        ...read.sheet,
        number: 1,
      });
      const work = { ...first, intent };
      await saveDossierFile(path, { work, things: read.things, ...signed() });
      tell(taken.notes);
      process.stdout.write(versionText(work, read.findings));
    } finally {
      codec.close();
    }
  });
}

export interface AddOptions {
  readonly baseline?: string;
  readonly minutes?: number;
  readonly limit: number;
}

/** Adds the next version to a dossier; gives the exit code. */
export async function addVersion(path: string, picture: string, options: AddOptions): Promise<number> {
  const baseline = await readBaseline(options.baseline);
  return withTrouble(async () => {
    const older = await openDossierFile(path);
    const codec = await openCodec();
    try {
      const grown = await grow(older, picture, codec, { ...options, baseline });
      if (grown === null) {
        process.stdout.write('This picture is the newest version already: nothing was added.\n');
        return;
      }
      const { work, read, change, notes } = grown;
      await saveDossierFile(path, { older, work, things: read.things, ...signed() });
      tell(notes);
      if (change === null)
        tell([
          `“${read.sheet.name}” does not lie on the version before: nothing of one is seen in the other. It was added; what changed can’t be told.`,
        ]);
      process.stdout.write(versionText(work, read.findings));
    } finally {
      codec.close();
      await older.close();
    }
  });
}

function tell(sentences: readonly string[]): void {
  for (const sentence of sentences) process.stderr.write(`${sentence}\n`);
}

function signed(): { writer: string; written: string } {
  return { writer: 'Halflight', written: new Date().toISOString() };
}
