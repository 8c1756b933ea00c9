import { carryArea, carryIntent, carryRecipe, type Pose } from '@halflight/engine';
import type { Answer, Version, Work } from './work.ts';

/**
 * The work with another version, which is then the one on the easel. Areas of the intent, the edit and the answers
 * travel along; an answer about a place that was cropped away goes with it.
 *
 * @param pose how the version lies on the one before; null when it is not known: everything stays where it is
 */
export function withVersion(work: Work, version: Version, pose: Pose | null): Work {
  const versions = [...work.versions, version];
  if (pose === null) return { ...work, versions };
  return {
    ...work,
    versions,
    intent: carryIntent(pose, work.intent),
    ...(work.recipe && { recipe: carryRecipe(pose, work.recipe) }),
    answers: work.answers.flatMap((answer) => carryAnswer(pose, answer)),
  };
}

function carryAnswer(pose: Pose, answer: Answer): Answer[] {
  if (!answer.outline) return [answer];
  const outline = carryArea(pose, answer.outline);
  return outline ? [{ ...answer, outline }] : [];
}
