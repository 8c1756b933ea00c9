export { writeAbstractProfile } from './abstractProfile.ts';
export { holdAnimation, type MeantFrame } from './animation.ts';
export { writeClf } from './clf.ts';
export type { Inks, Way } from './inks.ts';
export type { HandoverOptions, HandoverSource, Written } from './job.ts';
export { type OutputProfile, openProfile } from './profileFile.ts';
export { INK_LIMIT, type InkUse, lookInProfile, viewInProfile } from './proof.ts';
export { holdCss, holdJson, holdMarkup, holdPdf, holdRecipe } from './readBack.ts';
export { writePicture } from './write.ts';
