/**
 * The files of the bundled typeface (WOFF), as pages carry them. Each weight is in pieces by script; a character is
 * taken from the first piece that has it.
 */
export interface PageFonts {
  readonly regular: readonly Uint8Array[];
  readonly strong: readonly Uint8Array[];
}
