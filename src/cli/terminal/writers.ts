/** What writes the heavier formats. It is loaded when a drawing asks for it, and never by a check. */
import type * as pdf from '../../documents/formats/pdf.js';
import type * as png from '../draw/png.js';

export interface Writers {
  readonly pdf: () => Promise<Pick<typeof pdf, 'toPdf'>>;
  readonly png: () => Promise<Pick<typeof png, 'toPng'>>;
  /** Paths of the two faces that drawings are written in. */
  readonly fontFiles: { readonly regular: string; readonly bold: string };
}
