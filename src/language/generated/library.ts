// Generated from src/language/library by scripts/embed-library.mjs. Do not edit.

/** The bundled library: each file by its path below src/language/library, with its text. */
export const libraryFiles: readonly { readonly name: string; readonly text: string }[] = [
];
