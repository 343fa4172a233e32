/** A scene as SVG: presentation attributes only, no style sheet, no script, nothing from outside. */
import { CAPITAL, widthOf } from '../text/measure.js';
import {
  rounded,
  type GroupItem,
  type Item,
  type Point,
  type Scene,
  type Stroke,
  type TextItem,
} from '../scene/scene.js';

/** The font that texts were measured with, then what is near to it where it is not installed. */
const FONT_FAMILY = 'DejaVu Sans Condensed';
const FALLBACK = `'${FONT_FAMILY}', 'DejaVu Sans', 'Verdana', sans-serif`;

/** Write a scene. The same scene gives the same bytes. */
export function toSvg(scene: Scene): string {
  const lines: string[] = [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<svg xmlns="http://www.w3.org/2000/svg" width="${num(scene.width)}mm" height="${num(scene.height)}mm" viewBox="0 0 ${num(scene.width)} ${num(scene.height)}" role="graphics-document" aria-labelledby="${scene.id}-title ${scene.id}-desc" font-family="${attribute(FALLBACK)}" font-stretch="condensed" font-kerning="none" kerning="0">`,
    `<title id="${scene.id}-title">${escaped(scene.title)}</title>`,
    `<desc id="${scene.id}-desc">${escaped(scene.description)}</desc>`,
    `<rect width="${num(scene.width)}" height="${num(scene.height)}" fill="#ffffff"/>`,
  ];
  for (const item of scene.items) write(item, lines);
  lines.push('</svg>', '');
  return lines.join('\n');
}

function write(item: Item, lines: string[]): void {
  switch (item.kind) {
    case 'group':
      writeGroup(item, lines);
      return;
    case 'rect':
      lines.push(
        `<rect x="${num(item.x)}" y="${num(item.y)}" width="${num(item.width)}" height="${num(item.height)}"${item.radius === undefined ? '' : ` rx="${num(item.radius)}"`}${fillOf(item.fill)}${strokeOf(item.stroke)}/>`,
      );
      return;
    case 'line':
      lines.push(
        `<path d="${pathOf(item.points)}${item.closed === true ? 'Z' : ''}"${fillOf(item.fill)}${strokeOf(item.stroke)}/>`,
      );
      return;
    case 'disc':
      lines.push(
        `<circle cx="${num(item.x)}" cy="${num(item.y)}" r="${num(item.radius)}"${fillOf(item.fill)}${strokeOf(item.stroke)}/>`,
      );
      return;
    case 'text':
      lines.push(textOf(item));
  }
}

function writeGroup(group: GroupItem, lines: string[]): void {
  if (group.role === 'frame') {
    lines.push(`<g id="${attribute(group.id)}" aria-hidden="true">`);
  } else {
    const origin = group.origin === undefined ? '' : ` data-origin="${attribute(group.origin)}"`;
    lines.push(
      `<g id="${attribute(group.id)}" role="graphics-object" data-name="${attribute(group.name)}" data-kind="${group.role}"${origin} aria-label="${attribute(group.label)}">`,
      `<title>${escaped(group.label)}</title>`,
    );
  }
  for (const item of group.items) write(item, lines);
  lines.push('</g>');
}

function textOf(item: TextItem): string {
  const face = item.bold === true ? 'bold' : 'regular';
  const anchor = item.anchor === 'start' ? '' : ` text-anchor="${item.anchor}"`;
  const turn = item.upright === true ? ` transform="rotate(-90 ${num(item.x)} ${num(item.y)})"` : '';
  const title =
    item.whole === undefined || item.whole === item.text ? '' : `<title>${escaped(item.whole)}</title>`;
  // The measured width is given too: where the font is not at hand, another is squeezed to the same room.
  return `<text x="${num(item.x)}" y="${num(item.y)}" font-size="${num(item.height / CAPITAL)}" textLength="${num(widthOf(item.text, item.height, face))}" lengthAdjust="spacingAndGlyphs"${item.bold === true ? ' font-weight="bold"' : ''}${anchor} fill="${item.colour ?? '#000000'}"${turn}>${title}${escaped(item.text)}</text>`;
}

function pathOf(points: readonly Point[]): string {
  return points.map(({ x, y }, index) => `${index === 0 ? 'M' : 'L'}${num(x)} ${num(y)}`).join('');
}

const fillOf = (fill: string | undefined): string => ` fill="${fill ?? 'none'}"`;

function strokeOf(stroke: Stroke | undefined): string {
  if (stroke === undefined) return '';
  const dash = stroke.dash === undefined ? '' : ` stroke-dasharray="${stroke.dash.map(num).join(' ')}"`;
  return ` stroke="${stroke.colour}" stroke-width="${num(stroke.width)}"${dash}`;
}

const num = (value: number): string => String(rounded(value));

/** What means nothing to XML, in texts and in attributes: most texts, so that they are not looked through. */
const PLAIN = /^[ !#-%'-;=?-~]*$/;

/** Text between tags. What XML does not allow at all is shown as missing. */
function escaped(text: string): string {
  if (PLAIN.test(text)) return text;
  return (
    text
      // eslint-disable-next-line no-control-regex -- these are what XML forbids
      .replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]|\p{Cs}/gu, '\ufffd')
      .replace(/&/g, '&amp;')
      .replace(/</g, '&lt;')
      .replace(/>/g, '&gt;')
  );
}

/** Text in a quoted attribute. */
function attribute(text: string): string {
  if (PLAIN.test(text)) return text;
  return escaped(text)
    .replace(/"/g, '&quot;')
    .replace(/[\n\r\t]/g, ' ');
}
