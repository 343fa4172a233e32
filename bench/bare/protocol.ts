/** The notification by which the server of bare Langium says that a document is linked: `{ uri, version }`. */
export const LINKED = 'bench/linked';
