import { basename, extname } from 'node:path';
import { EMPTY_RECIPE, makeCloseView, type Recipe, reduceView } from '@halflight/engine';
import { type Codec, currentVersion, type Decoded } from '@halflight/files';
import type { Dossier } from '@halflight/files/dossier';
import { encodeForPage, openDossierFile, readBytes, showView } from '@halflight/files/node';
import type { ReportData } from '@halflight/pages';
import { collectReport } from '../report/collect.ts';
import { reportOfWork } from '../report/ofWork.ts';
import { smallPictures, versionStrip } from '../work/strip.ts';
import type { Order } from './settings.ts';

/** The versions of a work, read one after the other. */
export interface Versions {
  /** The pictures themselves, in their order, at most `side` pixels long; PNG. */
  pictures(side: number): AsyncIterable<Uint8Array>;
  /** The strip that hangs them by effort and by what they changed. */
  strip(kind: 'svg' | 'png'): Promise<Uint8Array>;
}

/** What is handed over: a picture, or the newest version of a work. */
export interface Source {
  readonly decoded: Decoded;
  /** Its name without ending: what the files beside it are called. */
  readonly name: string;
  readonly title: string;
  readonly recipe: Recipe;
  /** The versions of a work that has more than one; null otherwise. */
  readonly versions: Versions | null;
  readonly report: () => Promise<ReportData>;
  readonly close: () => Promise<void>;
}

/**
 * Opens a picture with the edit of the order, or a dossier with its newest version, its own edit (unless the order has
 * one) and all that a report knows of a work over time.
 *
 * @throws FileTrouble when it can't be read
 */
export async function openSource(codec: Codec, path: string, order: Order): Promise<Source> {
  return extname(path).toLowerCase() === '.halflight'
    ? openWork(codec, path, order)
    : openPicture(codec, path, order);
}

async function openPicture(codec: Codec, path: string, order: Order): Promise<Source> {
  const picture = basename(path);
  const decoded = await codec.decode(await readBytes(path, picture), {
    name: picture,
    limitMegapixels: order.limitMegapixels,
  });
  const { title: wanted, author } = order.settings.metadata;
  const name = basename(picture, extname(picture));
  const title = wanted || name;
  const recipe = order.recipe ?? EMPTY_RECIPE;
  const { intent, baseline } = order;
  return {
    decoded,
    name,
    title,
    recipe,
    versions: null,
    report: () => collectReport(decoded, { title, ...(author && { author }), intent, baseline, recipe }),
    close: async () => {},
  };
}

async function openWork(codec: Codec, path: string, order: Order): Promise<Source> {
  const dossier = await openDossierFile(path);
  try {
    const { work } = dossier;
    const { hash } = currentVersion(work);
    const name = basename(path, extname(path));
    const decoded = await codec.decode(await dossier.bytes(hash), {
      name,
      limitMegapixels: order.limitMegapixels,
    });
    const { title: wanted, author } = order.settings.metadata;
    const { baseline } = order;
    return {
      decoded,
      name,
      title: wanted || work.title,
      recipe: order.recipe ?? work.recipe ?? EMPTY_RECIPE,
      versions: work.versions.length > 1 ? versionsOf(codec, dossier, order) : null,
      report: () => reportOfWork(dossier, codec, { baseline, ...(author && { author }) }),
      close: () => dossier.close(),
    };
  } catch (error) {
    await dossier.close();
    throw error;
  }
}

function versionsOf(codec: Codec, dossier: Dossier, { limitMegapixels }: Order): Versions {
  const { work } = dossier;
  return {
    async *pictures(side) {
      for (const { hash, name } of work.versions) {
        const { raster } = await codec.decode(await dossier.bytes(hash), { name, limitMegapixels });
        yield encodeForPage(showView(reduceView(makeCloseView(raster), side)), 'png');
      }
    },
    strip: async (kind) => versionStrip(work, await smallPictures(dossier), kind),
  };
}
