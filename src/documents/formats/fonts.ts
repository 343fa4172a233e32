/** The very fonts that texts are measured by, as TrueType files. */
export interface Fonts {
  readonly regular: Uint8Array;
  readonly bold: Uint8Array;
}
