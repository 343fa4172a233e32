/** The thread that draws, in a browser. It cannot read files: the fonts are sent to it before they are needed. */
import '../../../../language/polyfill.js';
import type { Fonts } from '../../../../documents/formats/fonts.js';
import type { Done, Job } from './remote.js';
import { serveArtist } from './serve.js';

/** The worker's own end of its channel; the project's types are those of Node, which has none. */
declare const self: {
  postMessage(done: Done, bytes: readonly ArrayBuffer[]): void;
  onmessage: ((event: { readonly data: Job | { readonly fonts: Fonts } }) => void) | null;
};

let sent: (fonts: Fonts) => void = () => undefined;
const fonts = new Promise<Fonts>((resolve) => (sent = resolve));
const take = serveArtist(
  (done, bytes) => self.postMessage(done, bytes),
  () => fonts,
);
self.onmessage = ({ data }) => {
  if ('fonts' in data) sent(data.fonts);
  else void take(data);
};
