/**
 * What the server asks an editor for beyond the Language Server Protocol: files that do not lie on this machine's disk. An editor
 * that does not answer loses those files and nothing else.
 */

/** What is at a place; `null` if nothing is. */
export type FileKind = 'file' | 'folder';

/** An entry of a folder. */
export interface FileEntry {
  readonly name: string;
  readonly kind: FileKind;
}

/** The place a request is about. */
export interface FileParams {
  readonly uri: string;
}

/** Answered by a `FileKind`, or null. */
export const statRequest = 'wireloft/files/stat';
/** Answered by the file's bytes in base 64, or null if it cannot be read. */
export const readRequest = 'wireloft/files/read';
/** Answered by an array of `FileEntry`, empty if the folder cannot be read. */
export const listRequest = 'wireloft/files/list';
