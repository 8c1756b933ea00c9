import '../../offline/guard.ts';
import {
  examine,
  type Finding,
  type Intent,
  makeViews,
  type Recipe,
  readingInput,
  readyRecipe,
  reduceView,
  type Step,
  seriesMeasures,
  stepKind,
  strengthsOf,
  takeCensus,
  takeOut,
  type View,
  workOfLine,
} from '@halflight/engine';
import type { Decoded } from '@halflight/files';
import { breathe, takenByCamera } from '@halflight/files';
import { expose } from 'comlink';
import type { Progress } from '../../picture/desk.ts';
import { decodePicture, readyCodec } from '../picture/decode.ts';
import { fileOf, nameAfter } from '../picture/edit/file.ts';
import { proposeInPortions } from '../picture/edit/propose.ts';
import { writeEdited } from '../picture/edit/write.ts';
import { paintView } from '../picture/paint.ts';
import type { ClassDesk, ProposedEdit, WorkFile } from './desk.ts';
import { edited, examineEdited, type Held, lineOf, meanChange, valuesOf, withPlaces } from './held.ts';

/** Long sides of what is kept of a work: on the plane, and on the wall and its page. */
const SMALL = 320;
const PAGE = 1600;

/** The one picture that is held: a proposal often follows the reading. */
let held: Held | null = null;
let appFolder = '';

const desk: ClassDesk = {
  async begin(appBase) {
    appFolder = appBase;
    return seriesMeasures();
  },

  async read(work, intent, progress) {
    const { source, census, views, photographed } = await hold(work, progress);
    progress({ doing: 'Writing the notes', share: 0.85 });
    await breathe();
    const { facts, notes } = source;
    const input = readingInput({ picture: facts, census, views, intent, photographed });
    const { readings, findings } = examine(input);
    const line = lineOf(source, readings, findings);
    const page = reduceView(views.close, PAGE);
    return {
      read: {
        line,
        facts,
        remarks: notes,
        values: workOfLine(line)?.values ?? {},
        findings: findings.map((finding) => withPlaces(finding, readings)),
        fine: strengthsOf(
          readings.map(({ id, fine, reading: { evidence, value } }) => ({ id, fine, evidence, value })),
        ),
        width: page.width,
        height: page.height,
      },
      small: await jpegOf(reduceView(views.close, SMALL), 0.86),
      page: await jpegOf(page, 0.92),
    };
  },

  async propose(work, intent, progress) {
    const one = await hold(work, progress);
    const proposal = await proposalFor(one, intent, progress);
    if (proposal === null) return { summary: '', edit: null };
    const { recipe, steps, summary } = proposal;
    if (recipe.steps.length === 0) return { summary, edit: null };
    return { summary, edit: await attached(one, recipe, steps.map(reasonOf), summary) };
  },

  async bringIn(work, intent, place, progress) {
    const one = await hold(work, progress);
    const { bringIntoSet } = await import('./bring-in.ts');
    const found = await bringIntoSet(place, {
      propose: async () => (await proposalFor(one, place.common, progress))?.recipe ?? null,
      examine: async (recipe) => {
        progress({ doing: 'Reading the edited picture', share: null });
        await breathe();
        const { after, close } = examineEdited(one, recipe, intent);
        return {
          line: lineOf(one.source, after.readings, after.findings),
          change: meanChange(one.views.close, close),
        };
      },
    });
    if (found === null) return { summary: '', edit: null, still: [] };
    const { recipe, still } = found;
    return {
      summary: '',
      edit: await attached(
        one,
        recipe,
        recipe.steps.map((step) => reasonOf({ step, reason: step.reason ?? '' })),
        '',
      ),
      still,
    };
  },

  async tryEdit(work, recipe, intent) {
    const one = await hold(work, () => undefined);
    const { source, census, views, photographed } = one;
    const before = examine(readingInput({ picture: source.facts, census, views, intent, photographed }));
    await breathe();
    const { after, close } = examineEdited(one, recipe, intent);
    const has = (all: readonly Finding[], key: string): boolean => all.some((finding) => finding.key === key);
    return {
      gone: before.findings.filter(({ key }) => !has(after.findings, key)).map(({ text }) => text),
      brings: after.findings.filter(({ key }) => !has(before.findings, key)).map(({ text }) => text),
      still: after.findings.filter(({ key }) => has(before.findings, key)).length,
      change: meanChange(views.close, close),
      before: valuesOf(before.readings),
      after: valuesOf(after.readings),
      picture: await jpegOf(reduceView(close, 2 * SMALL), 0.88),
    };
  },

  async write(work, recipe, progress) {
    return writeOne(work, recipe, progress);
  },

  async packEdited(works, recipe, made, tell) {
    const { packFiles } = await import('./pack.ts');
    async function* files() {
      for (const [index, work] of works.entries()) {
        tell(index, works.length);
        const { blob, name } = await writeOne(work, recipe, () => undefined);
        yield { name, bytes: new Uint8Array(await blob.arrayBuffer()) };
      }
    }
    return packFiles(files(), made);
  },

  async packPages(request, tell) {
    const [{ packFiles }, { pageFiles }] = await Promise.all([import('./pack.ts'), import('./pages.ts')]);
    return packFiles(pageFiles(request, tell), request.made);
  },

  async writePages(request, put, tell) {
    const { pageFiles } = await import('./pages.ts');
    for await (const file of pageFiles(request, tell)) await put(file);
  },

  async dossier(work, bytes) {
    const { dossierOf } = await import('./dossier.ts');
    return dossierOf(work, bytes, new Date().toISOString());
  },
};

/** The smallest edit against an intent; null when the search was given up. */
async function proposalFor(
  { source, census, views, photographed }: Held,
  intent: Intent,
  progress: (p: Progress) => void,
) {
  const input = readingInput({ picture: source.facts, census, views, intent, photographed });
  const tell = (share: number): void => progress({ doing: 'Trying steps on its colours', share });
  return proposeInPortions({ input, examination: examine(input) }, tell, () => true);
}

/** A step in words: what it does and why. */
const reasonOf = ({ step, reason }: { step: Step; reason: string }): string =>
  `${stepKind(step.kind).title}: ${reason}`;

/** An edit with its picture, as a critique keeps it. */
async function attached(
  { views, source }: Held,
  recipe: Recipe,
  steps: readonly string[],
  summary: string,
): Promise<NonNullable<ProposedEdit['edit']>> {
  const after = reduceView(edited(recipe, views, source), PAGE);
  const { width, height } = after;
  return { recipe, summary, steps, width, height, after: await jpegOf(after, 0.92) };
}

/** The edited picture at full size, read back and held against what was meant. */
async function writeOne(work: WorkFile, recipe: Recipe, progress: (p: Progress) => void) {
  const { source, views } = await hold(work, progress);
  const codec = await readyCodec(appFolder);
  const how = { format: 'png', depth: source.raster.depth, space: 'own', metadata: true } as const;
  const ready = readyRecipe(recipe, views.close);
  const signal = new AbortController().signal;
  const bytes = await writeEdited(codec, source, ready, source.raster.space, how, progress, signal);
  return fileOf(bytes, nameAfter(source.facts.name, 'edited', 'png'), 'png');
}

/** Reads a picture the way `check` does; the one before goes first, so that there is never more than one. */
async function hold({ id, file, name }: WorkFile, progress: (p: Progress) => void): Promise<Held> {
  if (held?.id === id) return held;
  held = null;
  const decoded = await decodePicture(file, name, appFolder, progress);
  const { raster, photographed, note } = takeOut(decoded.raster, takenByCamera(decoded.metadata.exif));
  const { width, height } = raster;
  const source: Decoded = {
    ...decoded,
    raster,
    facts: { ...decoded.facts, width, height },
    notes: note === null ? decoded.notes : [...decoded.notes, note],
  };
  progress({ doing: 'Counting the colours', share: 0.6 });
  await breathe();
  const census = takeCensus(raster);
  progress({ doing: 'Looking from close by and from afar', share: 0.75 });
  await breathe();
  held = { id, source, photographed, census, views: makeViews(raster) };
  return held;
}

async function jpegOf(view: View, quality: number): Promise<Blob> {
  const canvas = new OffscreenCanvas(view.width, view.height);
  const context = canvas.getContext('2d');
  if (context === null) throw new Error('This browser gives no canvas to paint on.');
  const pixels = paintView(view, 'srgb');
  // JPEG knows no cover: transparent places show the white of paper.
  for (let i = 0; view.alpha && i < pixels.length; i += 4) {
    const cover = pixels[i + 3] / 255;
    for (let c = 0; c < 3; c++) pixels[i + c] = cover * pixels[i + c] + (1 - cover) * 255;
    pixels[i + 3] = 255;
  }
  context.putImageData(new ImageData(pixels, view.width, view.height), 0, 0);
  return canvas.convertToBlob({ type: 'image/jpeg', quality });
}

expose(desk);
