import type { Kind } from './kind.ts';

/** Everything that comes from outside, by the name under which it is tried. Loaded when asked for: some start a lot. */
export const KINDS: Readonly<Record<string, () => Promise<Kind>>> = {
  picture: async () => (await import('./kinds/picture.ts')).pictureKind(),
  dossier: async () => (await import('./kinds/dossier.ts')).dossierKind(),
  openraster: async () => (await import('./kinds/openRaster.ts')).openRasterKind(),
  recipe: async () => (await import('./kinds/plain.ts')).recipeKind(),
  intent: async () => (await import('./kinds/plain.ts')).intentKind(),
  baseline: async () => (await import('./kinds/plain.ts')).baselineKind(),
  settings: async () => (await import('./kinds/plain.ts')).settingsKind(),
  kept: async () => (await import('./kinds/kept.ts')).keptKind(),
};
