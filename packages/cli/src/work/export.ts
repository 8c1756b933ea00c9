import { mkdir, readdir } from 'node:fs/promises';
import { basename, dirname, extname, join } from 'node:path';
import { FileTrouble, type Work } from '@halflight/files';
import type { Dossier } from '@halflight/files/dossier';
import { openDossierFile, streamAtomically, writeAtomically } from '@halflight/files/node';
import { reasonOf } from '../inputs.ts';
import { EXIT, WrongUse, withTrouble } from '../trouble.ts';

/** Writes everything in a dossier as ordinary files into a folder; gives the exit code. */
export async function exportWork(path: string, { out }: { readonly out?: string }): Promise<number> {
  const folder = out ?? basename(path, extname(path));
  await emptyFolder(folder);
  let missing = 0;
  const code = await withTrouble(async () => {
    const dossier = await openDossierFile(path);
    try {
      const { work } = dossier;
      await makeFolder(folder);
      for (const { name, hash } of filesOf(work)) {
        const target = join(folder, name);
        try {
          await streamAtomically(target, dossier.stream(hash));
          process.stdout.write(`${target}\n`);
        } catch (error) {
          // One damaged picture must not keep the others from coming out.
          if (!(error instanceof FileTrouble) || error.kind === 'write') throw error;
          missing++;
          process.stderr.write(`${error.sentence} ${error.todo}\n`);
        }
      }
      for (const [name, value] of documents(dossier)) {
        const target = join(folder, name);
        await writeAtomically(target, new TextEncoder().encode(`${JSON.stringify(value, null, 2)}\n`));
        process.stdout.write(`${target}\n`);
      }
    } finally {
      await dossier.close();
    }
  });
  return missing > 0 ? EXIT.unread : code;
}

/** Originals and readings with names of our own making: nothing in a dossier can choose where it lands. */
function filesOf(work: Work): { name: string; hash: string }[] {
  const digits = Math.max(2, String(work.versions.length).length);
  return work.versions.flatMap((version) => {
    const stem = `${String(version.number).padStart(digits, '0')}-${harmless(version.name)}`;
    return [
      { name: stem, hash: version.hash },
      ...(version.readings ? [{ name: `${stem}.readings.json`, hash: version.readings }] : []),
    ];
  });
}

/** A file name without anything that a file system takes for a path, a device or a hidden file. */
function harmless(name: string): string {
  const plain = name
    .normalize('NFC')
    // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what must go
    .replace(/[\u0000-\u001f\u007f<>:"/\\|?*]+/g, '-')
    .replace(/^[.\s]+|[.\s]+$/g, '');
  const ending = extname(plain).slice(0, 12);
  return `${basename(plain, extname(plain)).slice(0, 100) || 'picture'}${ending}`;
}

/** What was decided and answered, as files that the other commands take. */
function documents({ work }: Dossier): [string, unknown][] {
  return [
    ['work.json', work],
    ['intent.json', work.intent],
    ...(work.recipe ? [['recipe.json', work.recipe] as [string, unknown]] : []),
  ];
}

/** Nothing that is there may be overwritten, so the folder must be new or empty. */
async function emptyFolder(folder: string): Promise<void> {
  let names: string[];
  try {
    names = await readdir(folder);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return;
    throw new WrongUse(
      `“${folder}” can’t be used as a folder: ${reasonOf(error)}. Name another one with --out.`,
    );
  }
  if (names.length > 0)
    throw new WrongUse(
      `The folder “${folder}” is not empty. Name a new one with --out: nothing is overwritten.`,
    );
}

async function makeFolder(folder: string): Promise<void> {
  try {
    // The last folder by itself: on the way down the reason is lost (a disk that can only be read looks missing).
    await mkdir(dirname(folder), { recursive: true });
    await mkdir(folder).catch((error) => {
      if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error;
    });
  } catch (error) {
    throw new WrongUse(
      `The folder “${folder}” can’t be made: ${reasonOf(error)}. Name another one with --out.`,
    );
  }
}
