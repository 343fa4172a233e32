/** What writes the heavier formats. It is loaded when a drawing asks for it, and never by a check. */
import type * as writers from '../draw/writers.js';

export interface Writers {
  readonly load: () => Promise<typeof writers>;
  /** Paths of the two faces that drawings are written in. */
  readonly fontFiles: { readonly regular: string; readonly bold: string };
}
