import { basename, join } from 'node:path';
import {
  bakeTable,
  calmLoss,
  DELIVERY_SPACES,
  editCensus,
  editView,
  type GamutLook,
  gamutLook,
  makeCloseView,
  paletteOf,
  type Recipe,
  type RecipeTable,
  readyRecipe,
  reduceView,
  tableNote,
  tableSpace,
  takeCensus,
  takeSurvey,
  type View,
  viewInSpace,
  workingSteps,
} from '@halflight/engine';
import { type Codec, type Decoded, FileTrouble } from '@halflight/files';
import {
  holdJson,
  holdMarkup,
  holdPdf,
  holdRecipe,
  type InkUse,
  lookInProfile,
  openProfile,
  type Written,
  writeAbstractProfile,
  writeClf,
  writePalette,
  writePicture,
} from '@halflight/files/handover';
import { encodeGreyPng, readBytes, writeAtomically } from '@halflight/files/node';
import {
  A4,
  LONG,
  layOut,
  palettePage,
  type ReportData,
  type ReportKind,
  reportPage,
  reportTold,
  sheetSvg,
} from '@halflight/pages';
import { guidePlaces } from '../apply/guide.ts';
import { typeface } from '../report/fonts.ts';
import { makeReport } from '../report/make.ts';
import { keepOriginal } from '../trouble.ts';
import { saveRecord } from './record.ts';
import type { Order } from './settings.ts';
import { openSource, type Source } from './source.ts';

/** What became of a picture. */
export interface HandedOver {
  /** Name of the picture that was read. */
  readonly picture: string;
  /** The file itself. */
  readonly file: Omit<Written, 'bytes'>;
  /** Names of all files, the picture's first. */
  readonly files: readonly string[];
  /** What the space of the file loses: a share of the picture, and whether an edit was found that calms it. */
  readonly lost: { readonly share: number; readonly calms: boolean | null };
  readonly ink: InkUse | null;
  readonly table: Pick<RecipeTable, 'space' | 'holds' | 'leftOut' | 'off'> | null;
  readonly notes: readonly string[];
}

/** Share of the picture above which a loss is spoken of. */
export const TOLD_FROM = 0.01;

/** Long side of the copy on which a loss is looked for when nobody asked where. */
const GLANCE = 480;

/**
 * Makes all files of one picture. Each is read from the disk again before it counts.
 *
 * @param taken names that this call has written already, in small letters; grows
 * @throws FileTrouble in words for whatever can't be done
 */
export async function handOver(
  codec: Codec,
  path: string,
  number: number,
  order: Order,
  inputs: readonly string[],
  taken: Set<string>,
): Promise<HandedOver> {
  const source = await openSource(codec, path, order);
  try {
    return await makeFiles(codec, source, basename(path), number, order, inputs, taken);
  } finally {
    await source.close();
  }
}

async function makeFiles(
  codec: Codec,
  { decoded, recipe, name: plain, title, versions, report }: Source,
  picture: string,
  number: number,
  order: Order,
  inputs: readonly string[],
  taken: Set<string>,
): Promise<HandedOver> {
  const { settings, profile } = order;
  // Pictures of one name from several folders keep what belongs to them apart.
  const isTaken = [...taken].some((other) => other.startsWith(`${plain.toLowerCase()}.`));
  const name = isTaken ? `${plain} ${number}` : plain;
  const close = makeCloseView(decoded.raster);
  const made = await writePicture(codec, decoded, recipe, settings, {
    number,
    close,
    ...(settings.format === 'openraster' && { places: guidePlaces(decoded, order.intent) }),
    ...(profile && { profile }),
  });
  const files: string[] = [];
  const save = async (name: string, bytes: Uint8Array): Promise<void> => {
    const target = join(order.folder, name);
    for (const input of inputs) keepOriginal(target, input);
    if (taken.has(name.toLowerCase()))
      throw new FileTrouble(
        'option',
        `Two pictures of this call would be called “${name}”.`,
        'Put {name} or {number} into the name in the settings, or hand them over in two calls.',
      );
    await writeAtomically(target, bytes);
    if (Buffer.compare(await readBytes(target, name), bytes) !== 0)
      throw new FileTrouble(
        'write',
        `“${target}” does not read back as it was written.`,
        'Try another disk.',
      );
    taken.add(name.toLowerCase());
    files.push(name);
  };
  const text = (content: string): Uint8Array => new TextEncoder().encode(content);
  await save(made.name, made.bytes);

  const looked = order.lost ? close : reduceView(close, GLANCE);
  const edited = editView(readyRecipe(recipe, close), looked, decoded.raster.space);
  const look = await lossOf(codec, decoded, order);
  const lost = look(edited);
  const calm =
    order.lost && lost.share >= TOLD_FROM ? await calmLoss(edited, decoded.raster.space, look) : null;
  if (order.lost) {
    const { map } = lost;
    await save(
      `${name}.lost.png`,
      await encodeGreyPng(
        Uint8Array.from(map.data, (v) => 255 * v),
        map.width,
        map.height,
      ),
    );
    if (calm && calm.steps.length > 0) {
      const edit = calmer(recipe, calm.steps);
      const json = `${JSON.stringify(edit, null, 2)}\n`;
      holdRecipe(json, edit, `${name}.calmer.json`);
      await save(`${name}.calmer.json`, text(json));
    }
  }
  const table =
    order.table && hasEdit(recipe)
      ? bakeTable(recipe, tableSpace(settings.space, decoded.raster.space))
      : null;
  if (table) {
    await save(`${name}.clf`, text(writeClf(table, title)));
    await save(`${name}.icc`, writeAbstractProfile(recipe, `${title}, its edit`));
  }
  if (order.palette) {
    const colours = paletteOf(censusOf(decoded, recipe, close));
    const hexes = colours.map(({ hex }) => hex);
    for (const kind of ['json', 'css'] as const) {
      const file = `${name}.palette.${kind}`;
      await save(file, text(writePalette(kind, colours, title, file)));
    }
    const face = await typeface();
    const svg = sheetSvg(layOut(palettePage(title, colours), LONG, face), face);
    holdMarkup(svg, { counts: { svg: 1, title: 1 }, texts: [], fills: hexes }, `${name}.palette.svg`);
    await save(`${name}.palette.svg`, text(svg));
  }
  const recorded = order.process
    ? await saveRecord({ codec, decoded, close, recipe, title, name, versions }, settings.process, save)
    : [];
  if (order.reports.length > 0) await saveReports(codec, await report(), name, order.reports, save);
  const { bytes: _written, ...file } = made;
  return {
    picture,
    file,
    files,
    lost: { share: lost.share, calms: calm === null ? null : calm.enough },
    ink: made.ink,
    table: table && { space: table.space, holds: table.holds, leftOut: table.leftOut, off: table.off },
    notes: [
      ...decoded.notes,
      ...made.notes,
      ...(order.table && !table ? ['There is no edit, so that no table was written.'] : []),
      ...(table ? [tableNote(settings.space, decoded.raster.space)].filter((note) => note !== null) : []),
      ...recorded,
    ],
  };
}

/** What the target makes of a view of the picture. */
async function lossOf(
  codec: Codec,
  { raster }: Decoded,
  { settings, profile }: Order,
): Promise<(view: View) => GamutLook> {
  const { space } = settings;
  if (typeof space === 'string') {
    const target = space === 'own' ? raster.space : DELIVERY_SPACES[space];
    return (view) => gamutLook(view, viewInSpace(view, target));
  }
  const output = openProfile(profile!, space.profile);
  if (output.space) {
    const target = output.space;
    return (view) => gamutLook(view, viewInSpace(view, target));
  }
  const inks = await codec.openInks(output);
  return (view) => lookInProfile(view, inks, space);
}

function calmer(recipe: Recipe, steps: Recipe['steps']): Recipe {
  return { ...recipe, steps: [...recipe.steps, ...steps] };
}

function hasEdit(recipe: Recipe): boolean {
  return workingSteps(recipe).length > 0;
}

function censusOf({ raster }: Decoded, recipe: Recipe, close: View): ReturnType<typeof takeCensus> {
  const census = takeCensus(raster);
  if (!hasEdit(recipe)) return census;
  const ready = readyRecipe(recipe, close);
  const source = ready.areas.length > 0 ? takeSurvey(close, ready.areas) : census;
  return { ...editCensus(ready, source, raster.space), area: census.area };
}

const REPORT_NAMES: Readonly<Record<ReportKind, string>> = {
  own: 'report',
  student: 'student',
  client: 'client',
};

/** Pages of a reader, each picture of a page decoded again before it leaves. */
async function saveReports(
  codec: Codec,
  data: ReportData,
  name: string,
  kinds: readonly ReportKind[],
  save: (name: string, bytes: Uint8Array) => Promise<void>,
): Promise<void> {
  for (const kind of kinds)
    for (const format of ['html', 'pdf', 'png'] as const) {
      const bytes = await makeReport(data, kind, format);
      const file = `${name}.${REPORT_NAMES[kind]}.${format}`;
      const page = reportPage(data, kind);
      if (format === 'png') await codec.readCodes(bytes);
      if (format === 'pdf') await holdPdf(bytes, layOut(page, A4, await typeface()).pages.length, file);
      if (format === 'html') {
        const headings = page.blocks.flatMap((block) => (block.kind === 'heading' ? [block.text] : []));
        const pictures = page.blocks.flatMap((block) => (block.kind === 'pictures' ? block.figures : []));
        const counts = { h1: 1, h2: headings.length, img: pictures.length };
        holdMarkup(new TextDecoder().decode(bytes), { counts, texts: headings }, file);
      }
      await save(file, bytes);
    }
  const json = await makeReport(data, 'own', 'json');
  holdJson(new TextDecoder().decode(json), reportTold(data), `${name}.report.json`);
  await save(`${name}.report.json`, json);
}
