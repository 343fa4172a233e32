/** A sheet's SVG as elements of the page: only what drawings are made of is let in, whoever wrote it. */

const ELEMENTS = new Set(['svg', 'title', 'desc', 'g', 'rect', 'path', 'circle', 'text']);
const ATTRIBUTES = new Set([
  ...['xmlns', 'viewBox', 'width', 'height', 'id', 'x', 'y', 'rx', 'cx', 'cy', 'r', 'd', 'transform'],
  ...['fill', 'stroke', 'stroke-width', 'stroke-dasharray', 'font-size', 'font-family', 'font-stretch'],
  ...['font-weight', 'font-kerning', 'text-anchor', 'textLength', 'lengthAdjust', 'role', 'aria-label'],
  ...['aria-labelledby', 'aria-hidden', 'data-name', 'data-kind', 'data-origin'],
]);

/** The picture, or undefined if it is not one. */
export function pictureOf(svg: string): SVGSVGElement | undefined {
  const root = new DOMParser().parseFromString(svg, 'image/svg+xml').documentElement;
  if (!(root instanceof SVGSVGElement)) return undefined;
  clean(root);
  return document.importNode(root, true);
}

function clean(element: Element): void {
  for (const { name } of [...element.attributes]) if (!ATTRIBUTES.has(name)) element.removeAttribute(name);
  for (const child of [...element.children]) {
    if (ELEMENTS.has(child.nodeName)) clean(child);
    else child.remove();
  }
}
