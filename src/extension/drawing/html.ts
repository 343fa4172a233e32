/** The page that shows a drawing, before its script runs. Nothing in it comes from the network, and nothing runs without the nonce. */
import { themeRules } from './colours.js';

export interface PageParts {
  /** Address of the page's script, as the page may load it. */
  readonly script: string;
  readonly nonce: string;
  /** The file that the drawing is of, so that it is found again after a reload. */
  readonly uri: string;
}

const escaped = (text: string): string =>
  text.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;').replace(/"/g, '&quot;');

/** A nonce that cannot be guessed. */
export function newNonce(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(18));
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');
}

/** The page. */
export function pageHtml({ script, nonce, uri }: PageParts): string {
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="UTF-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; script-src 'nonce-${nonce}'; style-src 'nonce-${nonce}'">
<title>Drawing</title>
<style nonce="${nonce}">
${STYLE}
${themeRules()}
</style>
</head>
<body data-uri="${escaped(uri)}">
<div class="bar">
<div id="tabs" role="tablist" aria-label="Sheets"></div>
<div class="tools" role="toolbar" aria-label="View">
<button id="out" type="button" aria-label="Zoom out" title="Zoom out (-)">&minus;</button>
<button id="in" type="button" aria-label="Zoom in" title="Zoom in (+)">+</button>
<button id="fit" type="button" title="Show the whole sheet (0)">Fit</button>
<button id="options" type="button" title="Choose which options are drawn" hidden>Options</button>
<button id="export" type="button" title="Write this sheet or the set as PDF, SVG or PNG">Export</button>
</div>
</div>
<p id="note" role="status" hidden></p>
<main id="stage" class="sheet" tabindex="0" role="tabpanel" aria-label="Sheet. Arrows move it, plus and minus zoom, N and P go from one element to the next, Enter goes to its line."></main>
<p id="said" role="status"></p>
<script nonce="${nonce}" src="${escaped(script)}"></script>
</body>
</html>
`;
}

const STYLE = `
html, body { height: 100%; margin: 0; padding: 0; }
body { display: flex; flex-direction: column; overflow: hidden; color: var(--vscode-foreground);
  background: var(--vscode-editor-background); font-family: var(--vscode-font-family); font-size: var(--vscode-font-size); }
.bar { display: flex; justify-content: space-between; gap: 8px; padding: 4px 8px;
  border-bottom: 1px solid var(--vscode-contrastBorder, var(--vscode-panel-border)); }
#tabs { display: flex; flex-wrap: wrap; gap: 2px; }
.tools { display: flex; flex-wrap: wrap; justify-content: end; gap: 2px; align-items: start; }
button { font: inherit; padding: 2px 8px; white-space: nowrap; max-width: 24em; overflow: hidden; text-overflow: ellipsis; border: 1px solid var(--vscode-contrastBorder, transparent); cursor: pointer;
  color: var(--vscode-button-secondaryForeground, var(--vscode-foreground)); background: var(--vscode-button-secondaryBackground, transparent); }
button[aria-selected="true"] { color: var(--vscode-button-foreground); background: var(--vscode-button-background);
  outline: 1px solid var(--vscode-contrastActiveBorder, transparent); }
button:focus-visible, #stage:focus-visible { outline: 1px solid var(--vscode-focusBorder); outline-offset: -1px; }
p { margin: 0; padding: 4px 8px; }
[hidden] { display: none; }
#note { color: var(--vscode-editorWarning-foreground); }
#said { min-height: 1.4em; border-top: 1px solid var(--vscode-contrastBorder, var(--vscode-panel-border)); }
#stage { position: relative; flex: 1; min-height: 0; overflow: hidden; touch-action: none; cursor: grab; }
#stage svg { position: absolute; left: 0; top: 0; }
#stage [data-known] { cursor: pointer; }
#stage [data-known]:focus { outline: none; }
#stage .at > rect:first-of-type, #stage .at > path:first-of-type, #stage [data-known]:focus > rect:first-of-type,
#stage [data-known]:focus > path:first-of-type { stroke: var(--vscode-focusBorder); stroke-width: 1.2; }
#stage.reaching [data-kind="device"]:not(.lit), #stage.reaching [data-kind="link"]:not(.lit),
#stage.reaching [data-kind="trunk"]:not(.lit) { opacity: 0.25; }
#stage .lit > rect:first-of-type { stroke-width: 0.9; }
#stage .lit > path:first-of-type { stroke-width: 1.2; }
`;
