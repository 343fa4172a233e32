/** Bytes as a text, where there is no Node.js to do it: in pieces, since a call takes so many arguments and no more. */
const PIECE = 0x8000;

export function base64(bytes: Uint8Array): string {
  let text = '';
  for (let at = 0; at < bytes.length; at += PIECE)
    text += String.fromCharCode(...bytes.subarray(at, at + PIECE));
  return btoa(text);
}
