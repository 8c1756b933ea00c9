import type { Intent, LineWork, Recipe, SeriesMeasure } from '@halflight/engine';
import type { Work } from '../../document/work.ts';
import type { Progress } from '../../picture/desk.ts';
import type { AttachedEdit } from '../../state/class-document.ts';
import type { ReadWork } from '../../state/class-reading.ts';

import type { PageFile, PagesRequest } from './request.ts';

/** A work to be looked at, as its file. */
export interface WorkFile {
  readonly id: string;
  readonly file: Blob;
  readonly name: string;
}

/** A work that was read, with its pictures (JPEG, sRGB). */
export interface ReadPicture {
  readonly read: Omit<ReadWork, 'intent'>;
  readonly small: Blob;
  readonly page: Blob;
}

/** An edit of a work, with the edited picture (JPEG, sRGB); `edit` is null when no edit helps or none is needed. */
export interface ProposedEdit {
  readonly summary: string;
  readonly edit: (Omit<AttachedEdit, 'picture'> & { readonly after: Blob }) | null;
}

/** A set of works, the place of one in it, and what they have in common. */
export interface PlaceInSet {
  readonly works: readonly LineWork[];
  readonly at: number;
  readonly common: Intent;
}

/** What brings a work into its set. */
export interface BroughtIn extends ProposedEdit {
  /** By what the edited picture still stands apart, a sentence each; read from the edited picture. */
  readonly still: readonly string[];
}

/** What a recipe does to one picture of a set. */
export interface EditOnWork {
  /** Sentences of the findings that are gone, and of those that it brings. */
  readonly gone: readonly string[];
  readonly brings: readonly string[];
  readonly still: number;
  /** Mean difference over the picture, ΔE_OK. */
  readonly change: number;
  readonly before: Readonly<Record<string, number | null>>;
  readonly after: Readonly<Record<string, number | null>>;
  readonly picture: Blob;
}

/** A number that works can be placed by. */
export type ClassMeasure = SeriesMeasure;

/** Calls of the class worker, which holds one picture at a time. Rejections carry a sentence for people. */
export interface ClassDesk {
  /** Says where the codec lies, and is told every number that works can be placed by. */
  begin(appBase: string): Promise<ClassMeasure[]>;
  read(work: WorkFile, intent: Intent, progress: (p: Progress) => void): Promise<ReadPicture>;
  propose(work: WorkFile, intent: Intent, progress: (p: Progress) => void): Promise<ProposedEdit>;
  /** The smallest edit that brings a work into its set; only what makes it stand less apart is given. */
  bringIn(
    work: WorkFile,
    intent: Intent,
    place: PlaceInSet,
    progress: (p: Progress) => void,
  ): Promise<BroughtIn>;
  tryEdit(work: WorkFile, recipe: Recipe, intent: Intent): Promise<EditOnWork>;
  /** The edited picture at full size as PNG, read back and held against what was meant. */
  write(
    work: WorkFile,
    recipe: Recipe,
    progress: (p: Progress) => void,
  ): Promise<{ blob: Blob; name: string }>;
  /** Every page, as one ZIP. */
  packPages(request: PagesRequest, tell: (done: number, all: number) => void): Promise<Blob>;
  /** Every page, given away file by file. */
  writePages(
    request: PagesRequest,
    put: (file: PageFile) => Promise<void>,
    tell: (done: number, all: number) => void,
  ): Promise<void>;
  /** Edited pictures of a set as one ZIP. */
  packEdited(
    works: readonly WorkFile[],
    recipe: Recipe,
    made: string,
    tell: (done: number, all: number) => void,
  ): Promise<Blob>;
  /** A dossier with the bytes of its pictures by their hashes. */
  dossier(work: Work, bytes: ReadonlyMap<string, Blob>): Promise<Blob>;
}
