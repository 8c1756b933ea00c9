import { changeSentence } from '@halflight/engine';
import type { Work } from '../../document/work.ts';
import type { ReportWish } from '../../picture/handover-desk.ts';
import { keeper } from '../../state/desks.ts';
import { curveOf } from '../../state/strip.ts';

/** What a report tells of the work beside its picture; the versions only where all their small pictures are there. */
export async function reportWish(work: Work, author: string): Promise<ReportWish> {
  const { title, intent, answers, looks, decision } = work;
  const versions = await Promise.all(
    work.versions.map(async ({ number, added, small, change, minutes }) => {
      const blob = small ? await keeper.picture(small, 'image/webp') : null;
      return (
        blob && {
          number,
          added,
          small: blob,
          ...(change && { change: changeSentence(change) }),
          ...(minutes !== undefined && { minutes }),
        }
      );
    }),
  );
  const whole = versions.filter((version) => version !== null);
  const { points, diminishing } = curveOf(work);
  return {
    title,
    author,
    intent,
    answers,
    looks,
    decided: decision ? { at: decision.at, version: decision.version } : null,
    process:
      whole.length === versions.length
        ? { points, sentence: diminishing?.sentence ?? null, versions: whole }
        : null,
  };
}
