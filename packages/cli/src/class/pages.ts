import { copyFile, mkdir, readFile, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { namesInFile } from '@halflight/engine';
import { writeAtomically } from '@halflight/files/node';
import {
  type ClassOverviewData,
  type CritiqueData,
  critiquePage,
  type NamesShown,
  overviewPage,
  type Page,
  type PagePicture,
  shownName,
} from '@halflight/pages';
import { makePage } from '../report/make.ts';
import { dossierFile, type EntryPicture, pageFile, type RunHead, smallFile } from './entry.ts';
import { JOURNAL } from './journal.ts';
import type { ReadWork, Series } from './series.ts';

export interface PagesWish {
  readonly names: NamesShown;
  readonly pdf: boolean;
}

/** Findings that a page for a student shows: more at once help nobody. Common practice, no source. */
const MOST_FINDINGS = 6;
/** What is said to be strong. */
const MOST_STRONG = 3;

/** The files that `writePages` writes, relative to the output folder. */
export function pageFilesOf({ works, edits }: Series, { names, pdf }: PagesWish): string[] {
  const both = (stem: string): string[] => [`${stem}.html`, ...(pdf ? [`${stem}.pdf`] : [])];
  const stems = stemsOf(works, names);
  return [
    ...both('overview'),
    ...stems.flatMap((stem, k) => [
      ...both(`pages/${stem}`),
      ...(works[k].entry.dossier ? [`dossiers/${stem}.halflight`] : []),
      ...(edits.has(k) ? [editFile(stem)] : []),
    ]),
  ];
}

/** The file of the edit that leads a work towards the series. */
const editFile = (stem: string): string => `series/${stem}.recipe.json`;

/** Writes a page for each work, the overview and, where they were made, dossiers and edits towards the series. */
export async function writePages(
  out: string,
  head: RunHead,
  series: Series,
  wish: PagesWish,
  onDone: (name: string) => void,
): Promise<void> {
  const made = latestOf(series);
  const stems = stemsOf(series.works, wish.names);
  const write = async (page: Page, stem: string): Promise<void> => {
    for (const format of wish.pdf ? (['html', 'pdf'] as const) : (['html'] as const))
      await writeAtomically(join(out, `${stem}.${format}`), await makePage(page, format, made));
  };
  await mkdir(join(out, 'pages'), { recursive: true });
  for (const [k, work] of series.works.entries()) {
    await write(critiquePage(await critiqueData(out, head, work, k, made, wish.names)), `pages/${stems[k]}`);
    if (work.entry.dossier) {
      await mkdir(join(out, 'dossiers'), { recursive: true });
      await copyFile(
        join(out, JOURNAL, dossierFile(work.entry.id)),
        join(out, `dossiers/${stems[k]}.halflight`),
      );
    }
    const edit = series.edits.get(k);
    if (edit) {
      await mkdir(join(out, 'series'), { recursive: true });
      const text = `${JSON.stringify(edit, null, 2)}\n`;
      await writeAtomically(join(out, editFile(stems[k])), new TextEncoder().encode(text));
    }
    onDone(stems[k]);
  }
  await write(overviewPage(await overviewData(out, head, series, stems, made, wish.names)), 'overview');
}

/** Takes away what an earlier run wrote and this one did not: a name that is hidden now must not stay on the disk. */
export async function removeStale(
  out: string,
  before: readonly string[],
  now: readonly string[],
): Promise<void> {
  const kept = new Set(now);
  for (const file of before) if (!kept.has(file)) await rm(join(out, file), { force: true });
}

/** The day of the pages is that of the newest work, so that the same works make the same bytes. */
function latestOf({ works }: Series): string {
  return (
    works
      .map(({ entry }) => entry.modified)
      .sort()
      .at(-1) ?? new Date(0).toISOString()
  );
}

/** Names of files say no more of people than the pages do. */
function stemsOf(works: readonly ReadWork[], names: NamesShown): string[] {
  const digits = String(works.length).length;
  return works.map(({ entry }, k) => {
    const place = String(k + 1).padStart(digits, '0');
    const name = names === 'hidden' ? 'work' : plainName(shownName(namesInFile(entry.name).who, k, names));
    return `${place} ${name || 'work'}`;
  });
}

/** A name that every file system takes: letters, digits and spaces. */
function plainName(text: string): string {
  const plain = text.normalize('NFC').replace(/[^\p{L}\p{N}]+/gu, ' ');
  return plain.trim().slice(0, 60).trim();
}

async function critiqueData(
  out: string,
  head: RunHead,
  { entry, line }: ReadWork,
  k: number,
  made: string,
  names: NamesShown,
): Promise<CritiqueData> {
  const { who, title } = namesInFile(entry.name);
  const hidden = names === 'hidden';
  return {
    schema: 'halflight/critique@1',
    title: hidden || title === '' ? (hidden ? `Work ${k + 1}` : head.title) : title,
    ...(!hidden && { who: shownName(who, k, names) }),
    ...(head.assignment && { assignment: head.assignment }),
    made,
    picture: await pictureOf(out, pageFile(entry.id), entry.page!),
    points: entry.strong.slice(0, MOST_STRONG).map((text) => ({ kind: 'praise', text, marks: [] })),
    findings: line.findings.slice(0, MOST_FINDINGS).map(({ text, todo, number, places = [] }) => ({
      text,
      todo,
      number,
      outlines: places.flatMap(({ outline }) => (outline ? [outline] : [])),
    })),
    ...(entry.notes.length > 0 && { closing: entry.notes.map((note) => withoutName(note, names)).join(' ') }),
  };
}

async function overviewData(
  out: string,
  head: RunHead,
  { works, unread, common, plane }: Series,
  stems: readonly string[],
  made: string,
  names: NamesShown,
): Promise<ClassOverviewData> {
  const [across, up] = plane.axes;
  const axisOf = ({ name, label, ends }: typeof across) => ({
    label,
    ends,
    values: works.map(({ line }) => line.values[name] ?? null),
  });
  return {
    schema: 'halflight/class-overview@1',
    title: head.title,
    ...(head.assignment && { assignment: head.assignment }),
    made,
    names,
    works: await Promise.all(
      works.map(async ({ entry, line }, k) => {
        const { who, title } = namesInFile(entry.name);
        const [strong] = entry.strong;
        const first = line.findings[0]?.todo;
        return {
          who,
          ...(title && { title }),
          small: await pictureOf(out, smallFile(entry.id), entry.small!),
          ...(strong && { strong }),
          ...(first && { first }),
          page: `pages/${encodeURIComponent(stems[k])}.html`,
        };
      }),
    ),
    common,
    ...(works.length > 1 && { plane: { across: axisOf(across), up: axisOf(up) } }),
    unread: unread.map(({ trouble }) => withoutName(trouble!, names)),
  };
}

/** A sentence about a file names it, and its name may name a person. */
function withoutName(text: string, names: NamesShown): string {
  return names === 'shown' ? text : text.replace(/“[^”]*”/gu, 'A file');
}

async function pictureOf(out: string, file: string, { width, height }: EntryPicture): Promise<PagePicture> {
  return {
    bytes: new Uint8Array(await readFile(join(out, JOURNAL, file))),
    mediaType: 'image/jpeg',
    width,
    height,
  };
}
