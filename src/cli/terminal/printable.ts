/**
 * Characters that would move the cursor, change the colours or turn the direction of what is printed. Text from a file must not:
 * C0 and C1 controls (ECMA-48), and the marks, embeddings, overrides and isolates of the Unicode bidirectional algorithm (UAX #9).
 */
// eslint-disable-next-line no-control-regex -- these are the characters to keep away from a terminal
const unsafe = /[\u0000-\u001f\u007f-\u009f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069]/g;

/** The text on one line, with a replacement character for whatever a terminal would act upon. */
export function printable(text: string): string {
  return text.replace(/\r\n|[\n\r\t\u2028\u2029]/g, ' ').replace(unsafe, '\ufffd');
}
