/** Contrast of two colours, by the formula of WCAG 2.2 (relative luminance; 1 to 21). */

/** Relative luminance of `#rrggbb`. */
function luminance(colour: string): number {
  const channels = /^#([\da-f]{2})([\da-f]{2})([\da-f]{2})$/i.exec(colour);
  if (channels === null) throw new Error(`${colour} is no colour of six digits`);
  const [red = 0, green = 0, blue = 0] = channels.slice(1).map((digits) => {
    const share = Number.parseInt(digits, 16) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

export function contrast(one: string, other: string): number {
  const [light = 0, dark = 0] = [luminance(one), luminance(other)].sort((a, b) => b - a);
  return (light + 0.05) / (dark + 0.05);
}
