/** A sheet's SVG as elements of the page: only what drawings are made of is let in, whoever wrote it. */
import { ATTRIBUTES, ELEMENTS } from '../drawing/allowed.js';

/** The picture, or undefined if it is not one. */
export function pictureOf(svg: string): SVGSVGElement | undefined {
  const root = new DOMParser().parseFromString(svg, 'image/svg+xml').documentElement;
  if (!(root instanceof SVGSVGElement)) return undefined;
  clean(root);
  const picture = document.importNode(root, true);
  for (const line of picture.querySelectorAll<SVGPathElement>(WIRES)) widen(line);
  return picture;
}

const WIRES = ['link', 'trunk'].map((kind) => `g[data-kind="${kind}"] > path:first-of-type`).join();

/** So wide, in mm, is what a pointer finds of a wire: a little less than wires stand apart. */
const WIDE = 2;

/** A wire is thinner than a hand is steady: something wider that is not seen is pointed at for it. */
function widen(line: SVGPathElement): void {
  const wide = document.createElementNS(line.namespaceURI ?? '', 'path');
  wide.setAttribute('class', 'wide');
  wide.setAttribute('d', line.getAttribute('d') ?? '');
  wide.setAttribute('fill', 'none');
  wide.setAttribute('stroke', 'transparent');
  wide.setAttribute('stroke-width', String(WIDE));
  line.parentElement?.append(wide);
}

function clean(element: Element): void {
  for (const { name } of [...element.attributes]) if (!ATTRIBUTES.has(name)) element.removeAttribute(name);
  for (const child of [...element.children]) {
    if (ELEMENTS.has(child.nodeName)) clean(child);
    else child.remove();
  }
}
