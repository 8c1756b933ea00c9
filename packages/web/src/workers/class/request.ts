import type { ClassOverviewData, OverviewAxis } from '@halflight/pages';
import type { ClassDocument, ClassWork } from '../../state/class-document.ts';
import type { ReadWork } from '../../state/class-reading.ts';

/** A work with all that its page shows. */
export interface PageWork {
  readonly work: ClassWork;
  readonly read: ReadWork;
  readonly page: Blob;
  readonly small: Blob;
  readonly after: Blob | null;
}

/** What pages are written from. */
export interface PagesRequest {
  readonly now: ClassDocument;
  /** In the order in which they stand on the overview. */
  readonly works: readonly PageWork[];
  /** Sentences that works share, with places in `works`. */
  readonly common: ClassOverviewData['common'];
  readonly plane: { readonly across: OverviewAxis; readonly up: OverviewAxis } | null;
  readonly unread: readonly string[];
  /** ISO 8601. */
  readonly made: string;
  readonly pdf: boolean;
}

/** One file of the pages. */
export interface PageFile {
  readonly name: string;
  readonly bytes: Uint8Array<ArrayBuffer>;
}
