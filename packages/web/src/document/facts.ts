import { type History, rebuild } from './history.ts';
import type { Version } from './work.ts';

/** What becomes known of a version after it came: no act of the artist, so it is not undone. */
export type Facts = Pick<Version, 'readings' | 'small'>;

/** The history with more known of a version; the same object when all of it was known. */
export function withFacts(history: History, hash: string, facts: Facts): History {
  let changed = false;
  const learn = <V extends Omit<Version, 'number'>>(version: V): V => {
    const next = { ...facts, ...version };
    if (version.hash !== hash || JSON.stringify(next) === JSON.stringify(version)) return version;
    changed = true;
    return next;
  };
  const inCommand = (command: History['done'][number]): History['done'][number] =>
    command.kind === 'addVersion' ? { ...command, version: learn(command.version) } : command;
  const base = { ...history.base, versions: history.base.versions.map(learn) };
  const done = history.done.map(inCommand);
  const undone = history.undone.map(inCommand);
  return changed ? rebuild(base, done, undone) : history;
}
