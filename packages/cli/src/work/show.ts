import { type Finding, type ProgressCurve, progressCurve } from '@halflight/engine';
import { currentVersion, type Work } from '@halflight/files';
import type { Dossier } from '@halflight/files/dossier';
import { openDossierFile } from '@halflight/files/node';
import { styleOf } from '../terminal/style.ts';
import { EXIT, withTrouble } from '../trouble.ts';
import { workText } from './text.ts';

interface AsJson {
  readonly json?: boolean;
}

/** Prints what a dossier holds; gives the exit code. */
export async function showWork(path: string, { json }: AsJson): Promise<number> {
  return withTrouble(async () => {
    const dossier = await openDossierFile(path);
    try {
      const { work } = dossier;
      const curve = curveOf(work);
      const findings = await findingsOf(dossier);
      if (json) print({ schema: 'halflight/work-show@1', work, progress: curve, findings });
      else process.stdout.write(workText(work, curve, findings, styleOf(process.stdout)));
    } finally {
      await dossier.close();
    }
  });
}

/** Reads everything in a dossier and says what is not as it was put in; gives the exit code. */
export async function verifyWork(path: string, { json }: AsJson): Promise<number> {
  let bad = 0;
  const code = await withTrouble(async () => {
    const dossier = await openDossierFile(path);
    try {
      const troubles = await dossier.verify();
      bad = troubles.length;
      const files = dossier.manifest.files.length;
      const bytes = dossier.manifest.files.reduce((sum, file) => sum + file.bytes, 0);
      if (json) {
        const said = troubles.map(({ sentence, todo }) => `${sentence} ${todo}`);
        print({ schema: 'halflight/work-verify@1', whole: bad === 0, files, bytes, troubles: said });
      } else if (bad === 0) {
        const { versions } = dossier.work;
        const count = versions.length === 1 ? '1 version' : `${versions.length} versions`;
        process.stdout.write(
          `Whole: ${count}, ${files} files, ${(bytes / 1e6).toFixed(1)} MB, every checksum fits.\n`,
        );
      }
      for (const { sentence, todo } of json ? [] : troubles) process.stderr.write(`${sentence} ${todo}\n`);
    } finally {
      await dossier.close();
    }
  });
  return bad > 0 ? EXIT.unread : code;
}

/** The versions of a work on their curve of effort and impact. */
export function curveOf(work: Work): ProgressCurve {
  return progressCurve(
    work.versions.map(({ number, change, minutes, width, height }) => ({
      version: number,
      change: change ?? null,
      size: [width, height] as const,
      ...(minutes !== undefined && { minutes }),
    })),
  );
}

/** What was found in the newest version when it came; nothing when its readings were not kept. */
async function findingsOf(dossier: Dossier): Promise<Finding[]> {
  const { readings } = currentVersion(dossier.work);
  if (readings === undefined || !dossier.has(readings)) return [];
  const bytes = await dossier.bytes(readings, MOST_READINGS);
  try {
    const { findings } = JSON.parse(new TextDecoder().decode(bytes)) as { findings?: unknown };
    return Array.isArray(findings) ? findings.filter((f) => typeof f?.text === 'string') : [];
  } catch {
    return [];
  }
}

const MOST_READINGS = 2 ** 24;

function print(value: unknown): void {
  process.stdout.write(`${JSON.stringify(value)}\n`);
}
