import { changeSentence } from '@halflight/engine';
import { type Codec, currentVersion, type Work } from '@halflight/files';
import type { Dossier } from '@halflight/files/dossier';
import { smallForPage } from '@halflight/files/node';
import type { ReportData, ReportVersion } from '@halflight/pages';
import { curveOf } from '../work/show.ts';
import { collectReport, type ReportWish } from './collect.ts';

const MOST_SMALL = 2 ** 24;

/**
 * What a report says of a work: its newest version with its edit, and how it came to be.
 *
 * @throws FileTrouble when a picture in the dossier can't be read
 */
export async function reportOfWork(
  dossier: Dossier,
  codec: Codec,
  wish: Pick<ReportWish, 'author' | 'baseline'> = {},
): Promise<ReportData> {
  const { work } = dossier;
  const { hash, name } = currentVersion(work);
  const decoded = await codec.decode(await dossier.bytes(hash), {
    name,
    limitMegapixels: Number.MAX_SAFE_INTEGER,
  });
  const { title, intent, recipe = null, answers, looks, decision } = work;
  const process = await processOf(dossier);
  return collectReport(decoded, {
    ...wish,
    title,
    intent,
    recipe,
    answers,
    past: {
      ...(process && { process }),
      looks,
      ...(decision && { decided: { at: decision.at, version: decision.version } }),
    },
  });
}

/** The versions with their small pictures; none where one of them is missing. */
async function processOf(dossier: Dossier): Promise<ReportData['process'] | null> {
  const { work } = dossier;
  const versions: ReportVersion[] = [];
  for (const version of work.versions) {
    if (version.small === undefined || !dossier.has(version.small)) return null;
    versions.push(await versionOf(version, await dossier.bytes(version.small, MOST_SMALL)));
  }
  const { points, diminishing } = curveOf(work);
  return { points, versions, sentence: diminishing?.sentence ?? null };
}

async function versionOf(
  { number, added, change, minutes }: Work['versions'][number],
  webp: Uint8Array,
): Promise<ReportVersion> {
  return {
    number,
    added,
    small: { ...(await smallForPage(webp)), mediaType: 'image/jpeg' },
    ...(change && { change: changeSentence(change) }),
    ...(minutes !== undefined && { minutes }),
  };
}
