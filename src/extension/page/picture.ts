/** A sheet's SVG as elements of the page: only what drawings are made of is let in, whoever wrote it. */
import { ATTRIBUTES, ELEMENTS } from '../drawing/allowed.js';

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
