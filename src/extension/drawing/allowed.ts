/** What a sheet's picture is made of, and all that the page lets in, whoever wrote it. */
export const ELEMENTS: ReadonlySet<string> = new Set([
  ...['svg', 'title', 'desc', 'g', 'rect', 'path', 'circle', 'text'],
]);

export const ATTRIBUTES: ReadonlySet<string> = new Set([
  ...['xmlns', 'viewBox', 'width', 'height', 'id', 'x', 'y', 'rx', 'cx', 'cy', 'r', 'd', 'transform'],
  ...['fill', 'stroke', 'stroke-width', 'stroke-dasharray', 'font-size', 'font-family', 'font-stretch'],
  ...[
    'font-weight',
    'font-kerning',
    'kerning',
    'text-anchor',
    'textLength',
    'lengthAdjust',
    'role',
    'aria-label',
  ],
  ...['aria-labelledby', 'aria-hidden', 'data-name', 'data-kind', 'data-origin'],
]);
