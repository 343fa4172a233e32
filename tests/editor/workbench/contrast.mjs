/* global document, getComputedStyle */
/** How well a drawing can be told from its paper, in the colours that the workbench gives it. */

/**
 * The least contrasts after WCAG 2 of the texts and of the lines of the sheet that is shown.
 * @param {import('playwright-core').Frame} drawing
 * @returns {Promise<{ text: number, line: number }>}
 */
export function leastContrast(drawing) {
  return drawing.evaluate(() => {
    const canvas = document.createElement('canvas');
    canvas.width = canvas.height = 1;
    const context = canvas.getContext('2d', { willReadFrequently: true });
    if (context === null) throw new Error('There is no canvas.');
    /** @param {string} colour */
    const luminance = (colour) => {
      context.clearRect(0, 0, 1, 1);
      context.fillStyle = colour;
      context.fillRect(0, 0, 1, 1);
      const [red = 0, green = 0, blue = 0] = [...context.getImageData(0, 0, 1, 1).data].map((value) => {
        const part = value / 255;
        return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
      });
      return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
    };
    /** @param {string} a @param {string} b */
    const contrast = (a, b) => {
      const [one, other] = [luminance(a), luminance(b)];
      return (Math.max(one, other) + 0.05) / (Math.min(one, other) + 0.05);
    };
    const fills = [...document.querySelectorAll('#stage rect')].map((one) => getComputedStyle(one).fill);
    // Whatever a text may stand on.
    const papers = [...new Set(fills.filter((fill) => fill !== 'none'))];
    const all = (/** @type {string} */ selector, /** @type {'fill' | 'stroke'} */ which) => [
      ...new Set([...document.querySelectorAll(selector)].map((one) => getComputedStyle(one)[which])),
    ];
    const least = (/** @type {readonly string[]} */ colours) =>
      Math.min(
        ...colours
          .filter((colour) => colour !== 'none')
          .flatMap((colour) => papers.map((paper) => contrast(colour, paper))),
      );
    return {
      text: least(all('#stage text', 'fill')),
      line: least(all('#stage :is(path:not(.wide), rect, circle)', 'stroke')),
    };
  });
}
