/** `node scripts/font-widths.mjs`: writes src/documents/text/widths.ts, the widths of the very fonts that drawings are written in. */
import { ensureInstalled } from './lib/install.mjs';
import { at, say, writeIfChanged } from './lib/project.mjs';

ensureInstalled();
const fontkit = await import('fontkit');

/** Scripts that names are written in, punctuation, and the signs of the trade; not what no keyboard of a yard has. */
const BLOCKS = [
  [0x20, 0x7e],
  [0xa0, 0x24f],
  [0x2b0, 0x2ff],
  [0x370, 0x52f],
  [0x5d0, 0x5ea],
  [0x621, 0x64a],
  [0x1e00, 0x1fff],
  [0x2010, 0x2027],
  [0x2030, 0x205e],
  [0x2070, 0x209c],
  [0x20a0, 0x20bf],
  [0x2100, 0x218f],
  [0x2190, 0x21ff],
  [0x2200, 0x22ff],
  [0x2300, 0x23ff],
  [0x25a0, 0x266f],
  [0xfffd, 0xfffd],
];

/**
 * @param {string} file
 * @returns {string} runs of code points of equal width: `start,count,width` in base 36
 */
function widthsOf(file) {
  const opened = fontkit.openSync(at('node_modules', 'dejavu-fonts-ttf', 'ttf', file));
  if (!('characterSet' in opened)) throw new Error(`${file} is no single font`);
  const has = new Set(opened.characterSet);
  /** @type {{ start: number, count: number, width: number }[]} */
  const runs = [];
  for (const [from = 0, to = 0] of BLOCKS) {
    for (let code = from; code <= to; code += 1) {
      if (!has.has(code)) continue;
      const width = Math.round(opened.glyphForCodePoint(code).advanceWidth);
      const last = runs.at(-1);
      if (last && last.start + last.count === code && last.width === width) last.count += 1;
      else runs.push({ start: code, count: 1, width });
    }
  }
  return runs
    .map(({ start, count, width }) => [start, count, width].map((n) => n.toString(36)).join(','))
    .join(' ');
}

const text = [
  '// Generated from the fonts by scripts/font-widths.mjs. Do not edit.',
  '',
  '/** Advance widths in 2048ths of the em, as runs `start,count,width` in base 36. */',
  `export const REGULAR = '${widthsOf('DejaVuSansCondensed.ttf')}';`,
  '',
  '/** The same of the bold face. */',
  `export const BOLD = '${widthsOf('DejaVuSansCondensed-Bold.ttf')}';`,
  '',
].join('\n');
say(writeIfChanged(at('src', 'documents', 'text', 'widths.ts'), text) ? 'written' : 'nothing has changed');
