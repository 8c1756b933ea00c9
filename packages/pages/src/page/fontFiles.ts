/** Scripts that the bundled typeface has, the most used first. */
const SCRIPTS = ['latin', 'latin-ext', 'greek', 'cyrillic', 'cyrillic-ext', 'vietnamese'] as const;

/** Names of the files of the bundled typeface inside `@fontsource/source-sans-3/files`, as `PageFonts` wants them. */
export const FONT_FILES = {
  regular: SCRIPTS.map((script) => `source-sans-3-${script}-400-normal.woff`),
  strong: SCRIPTS.map((script) => `source-sans-3-${script}-600-normal.woff`),
} as const;
