import type { Pose } from '@halflight/engine';
import { checkLine } from '@halflight/engine';
import { go } from '../app/route.ts';
import { currentVersion, type Version, type Work, withVersion } from '../document/work.ts';
import type { OpenedPicture } from '../picture/desk.ts';
import { baselineInUse } from './baseline.ts';
import { keeper, pictures } from './desks.ts';
import { perform } from './edit.ts';
import { keepingSentence, lookAtRoom } from './keeping.ts';
import { lineOf } from './learn.ts';
import { type Incoming, openPicture, openWork, versionOf } from './open.ts';
import { forgetReadings, refreshReadings } from './readings.ts';
import { get, type ShownGlance, say, set, trouble } from './session.ts';

/**
 * Reads a picture as the next version of the open work: areas and answers travel along, every "will do" is
 * answered. A paste is only a glance until it is kept.
 *
 * @param forced also when nothing of the version before is seen in it
 * @returns 'done', else the opened picture, which is another work's; null when no work is open to be written
 */
export async function readNext(item: Incoming, forced: boolean): Promise<OpenedPicture | 'done' | null> {
  const { history, writable, glance } = get();
  if (history === null || (!writable && glance === null)) return null;
  const work = history.present;
  const before = currentVersion(work);
  const { file, name } = item;
  const [hash, picture] = await Promise.all([keeper.hashOf(file), openPicture(file, name)]);
  if (hash === before.hash || hash === glance?.version.hash) {
    showAgain(picture, glance && hash === glance.version.hash ? glance : null, before.number);
    return 'done';
  }
  if (!forced && (await isNewestElsewhere(hash, work.id))) return picture;
  telling(`Laying it on version ${before.number}`, 0.92);
  const change = await pictures.run((desk) => desk.changeSinceBefore());
  if (change === null && !forced) return picture;

  const pose = change?.pose ?? null;
  const lying = withVersion(work, { ...before, number: before.number + 1 }, pose);
  telling('Asking it about what you meant to do', 0.96);
  const seen = await pictures.run((desk) => desk.examine(lying.intent, lying.answers, baselineInUse()));
  const outcomes =
    change === null ? [] : await pictures.run((desk) => desk.outcomes(lying.intent, lying.answers));
  const { number: _number, ...facts } = versionOf(name, 0, hash, file, picture);
  const [small, readings] = await Promise.all(
    [picture.thumb, lineOf(checkLine({ ...seen, picture: picture.facts }, null))].map((bytes) =>
      keeper.keep(bytes).catch(() => undefined),
    ),
  );
  const version = {
    ...facts,
    ...(small && { small }),
    ...(readings && { readings }),
    ...(change && { change: { from: before.number, ...change } }),
  };
  const pasted = item.pasted === true;
  // A version without its bytes would be none: what a full store does not take hangs unkept, until there is room.
  if (pasted || !(await addVersion(picture, file, { version, pose, outcomes })))
    hangGlance(picture, { file, pasted, version, pose, outcomes, work });
  return 'done';
}

/** Makes the paste on the wall a version. */
export async function keepGlance(): Promise<void> {
  const { glance } = get();
  if (glance === null) return;
  const { id, file, version, pose, outcomes } = glance;
  if (!(await keepBytes(version.hash, file))) return;
  set({ glance: null, writable: true });
  perform({ kind: 'addVersion', version, pose, outcomes, glance: id });
  say('It is kept as a version.');
}

/** Goes back to the newest version; the paste stays among the glances, or is forgotten altogether. */
export async function leaveGlance(forget: boolean): Promise<void> {
  const { glance, history } = get();
  if (glance === null || history === null) return;
  set({ glance: null, writable: true });
  if (forget) perform({ kind: 'dropGlance', id: glance.id });
  await openWork(history.present.id);
}

async function addVersion(
  picture: OpenedPicture,
  file: Blob,
  { version, pose, outcomes }: Pick<ShownGlance, 'version' | 'pose' | 'outcomes'>,
): Promise<boolean> {
  if (!(await keepBytes(version.hash, file))) return false;
  hang(picture);
  set({ glance: null, writable: true });
  perform({ kind: 'addVersion', version, pose, outcomes });
  arrive();
  return true;
}

function hangGlance(
  picture: OpenedPicture,
  { file, pasted, version, pose, outcomes, work }: Omit<ShownGlance, 'id'>,
): void {
  const { hash: _hash, bytes: _bytes, mediaType: _type, minutes: _m, change: _change, ...sheet } = version;
  const id = crypto.randomUUID();
  hang(picture);
  set({
    glance: { id, file, pasted, version, pose, outcomes, work: lyingOn(work, version, pose, outcomes) },
  });
  set({ writable: true });
  perform({ kind: 'glance', glance: { ...sheet, id } });
  set({ writable: false });
  arrive();
}

/** Keeps a version's bytes, true when that could be done; little room is said as well. */
async function keepBytes(hash: string, file: Blob): Promise<boolean> {
  try {
    await keeper.keepPicture(hash, file);
    void lookAtRoom();
    return true;
  } catch (error) {
    trouble('keeping', keepingSentence(error));
    return false;
  }
}

/** The work as it lies on the paste, with what the paste says to every "will do". */
function lyingOn(
  work: Work,
  version: Omit<Version, 'number'>,
  pose: Pose | null,
  outcomes: ShownGlance['outcomes'],
): Work {
  const number = currentVersion(work).number + 1;
  const lying = withVersion(work, { ...version, number }, pose);
  const answers = lying.answers.map((answer, index) => {
    const state = outcomes[index];
    return state ? { ...answer, outcome: { version: number, state } } : answer;
  });
  return { ...lying, answers };
}

/** The file is what hangs already. */
function showAgain(picture: OpenedPicture, glance: ShownGlance | null, version: number): void {
  const since = glance ? 'the last paste' : `version ${version}`;
  const remark = `The picture is as it was: not a byte has changed since ${since}.`;
  hang({ ...picture, remarks: [...picture.remarks, remark] });
  set({ glance, writable: glance === null });
  arrive();
  void refreshReadings();
  say(remark);
}

/** Puts another picture on the wall. */
function hang(picture: OpenedPicture): void {
  get().picture?.bitmap.close();
  forgetReadings();
  set({ picture, seen: null, place: null, openNote: null, pointedNote: null });
}

/** The notes of what has come; a screen that shows the work in another way stays. */
function arrive(): void {
  const { route, history } = get();
  if (history === null || (route.screen !== 'shelf' && route.screen !== 'intent')) return;
  go({ screen: 'check', work: history.present.id });
}

function telling(doing: string, share: number): void {
  const { opening } = get();
  if (opening) set({ opening: { ...opening, progress: { doing, share } } });
}

async function isNewestElsewhere(hash: string, work: string): Promise<boolean> {
  return (await keeper.shelf()).some(({ id, hashes }) => id !== work && hashes.at(-1) === hash);
}
