/** The writers of the heavier formats: a bundle of its own, which main.ts loads when a drawing asks for one. */
export { toPdf } from '../../documents/formats/pdf.js';
export { toPng } from '../../documents/formats/png/png.js';
export { toXlsx } from '../../documents/formats/xlsx.js';
