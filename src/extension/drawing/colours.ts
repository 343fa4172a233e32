/**
 * A drawing in the colours of the editor: paper and ink become background and foreground, and what lies between is mixed of the two, so
 * that it is told apart in any theme. The media keep their own colours on light paper, and have lighter ones on dark. Dash and weight
 * stay, so that nothing hangs on colour alone.
 */

/** Of a hundred parts, how many are ink; the rest is paper. */
const mixed = (ink: number): string =>
  `color-mix(in srgb, var(--vscode-editor-foreground) ${ink}%, var(--vscode-editor-background))`;

/** For each colour of the drawings, what the editor has for it. */
const INKS: Readonly<Record<string, string>> = {
  '#ffffff': 'var(--vscode-editor-background)',
  '#000000': 'var(--vscode-editor-foreground)',
  '#555555': mixed(80),
  '#4a4a4a': mixed(80),
  '#f3f5f7': mixed(4),
  '#e4ebf2': mixed(12),
  '#9aa5b1': `var(--vscode-contrastBorder, ${mixed(68)})`,
};

/** For each colour that is a medium's, or a finding's, the lighter one that is drawn on dark paper. */
export const ON_DARK: Readonly<Record<string, string>> = {
  '#0b5cab': '#6cb4ff',
  '#00705a': '#4ec9a6',
  '#8a3a7d': '#dd9bd6',
  '#b03a0a': '#ff9e6b',
  '#a81414': '#ff8a8a',
};

/** Every colour that has one in the editor. */
export const THEMED: ReadonlySet<string> = new Set([...Object.keys(INKS), ...Object.keys(ON_DARK)]);

/** The rules for them; a style sheet goes before what an SVG says in attributes. */
export function themeRules(): string {
  const own = Object.entries(INKS).map(([colour, by]) => ruleOf('.sheet', colour, by));
  const dark = 'body:not(.vscode-light, .vscode-high-contrast-light) .sheet';
  return [...own, ...Object.entries(ON_DARK).map(([colour, by]) => ruleOf(dark, colour, by))].join('\n');
}

const ruleOf = (within: string, colour: string, by: string): string =>
  `${within} [fill="${colour}"] { fill: ${by}; }\n${within} [stroke="${colour}"] { stroke: ${by}; }`;
