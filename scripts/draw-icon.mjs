/** `npm run icon`: draws icons/wireloft.png, which the marketplace shows, from icons/wireloft.svg. */
import { readFileSync } from 'node:fs';
import { ensureInstalled } from './lib/install.mjs';
import { at, say, writeIfChanged } from './lib/project.mjs';

ensureInstalled();
const { Resvg } = await import('@resvg/resvg-js');
const drawing = new Resvg(readFileSync(at('icons', 'wireloft.svg'), 'utf8'), {
  font: { loadSystemFonts: false },
});
const changed = writeIfChanged(at('icons', 'wireloft.png'), drawing.render().asPng());
say(`icons/wireloft.png ${changed ? 'is drawn' : 'is as it was'}.`);
