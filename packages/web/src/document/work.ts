import type { Version } from '@halflight/files';

/** A work is the same plain data in the browser's store, in a dossier and in the command line. */
export {
  type Answer,
  currentVersion,
  type Decision,
  type Glance,
  type Look,
  newWork,
  thingsOf,
  titleFromName,
  type Version,
  WORK_STATES,
  type Work,
  type WorkState,
  withVersion,
} from '@halflight/files';

/** Whether the picture of a version is a layered file. */
export function isLayered({ name }: Pick<Version, 'name'>): boolean {
  return /\.ora$/i.test(name);
}
