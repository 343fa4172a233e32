/**
 * A drawing in the colours of the editor: paper and ink become background and foreground, and each medium's colour the editor's own of
 * that name. Dash and weight stay, so that nothing hangs on colour alone.
 */

/** For each colour of the drawings, what the editor has for it. */
export const THEMED: Readonly<Record<string, string>> = {
  '#ffffff': 'var(--vscode-editor-background)',
  '#000000': 'var(--vscode-editor-foreground)',
  '#555555': 'var(--vscode-descriptionForeground, var(--vscode-editor-foreground))',
  '#4a4a4a': 'var(--vscode-descriptionForeground, var(--vscode-editor-foreground))',
  '#f3f5f7': 'var(--vscode-sideBar-background, var(--vscode-editor-background))',
  '#e4ebf2': 'var(--vscode-editorWidget-background, var(--vscode-editor-background))',
  '#9aa5b1': 'var(--vscode-contrastBorder, var(--vscode-editorIndentGuide-activeBackground1, currentColor))',
  '#0b5cab': 'var(--vscode-charts-blue, var(--vscode-editor-foreground))',
  '#00705a': 'var(--vscode-charts-green, var(--vscode-editor-foreground))',
  '#8a3a7d': 'var(--vscode-charts-purple, var(--vscode-editor-foreground))',
  '#b03a0a': 'var(--vscode-charts-orange, var(--vscode-editor-foreground))',
  '#a81414': 'var(--vscode-errorForeground, var(--vscode-editor-foreground))',
};

/** The rules for them; a style sheet goes before what an SVG says in attributes. */
export function themeRules(): string {
  return Object.entries(THEMED)
    .map(
      ([colour, own]) =>
        `.sheet [fill="${colour}"] { fill: ${own}; }\n.sheet [stroke="${colour}"] { stroke: ${own}; }`,
    )
    .join('\n');
}
