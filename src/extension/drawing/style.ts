/** What is drawn first of an element: a box's edge, a wire's line. The symbol in a box is not it. */
const OUTLINE =
  ':is(rect:first-of-type, [data-kind="link"] > path:first-of-type, [data-kind="trunk"] > path:first-of-type)';

/** How the page that shows a drawing looks, in the colours of the editor's theme. */
export const STYLE = `
html, body { height: 100%; margin: 0; padding: 0; }
body { display: flex; flex-direction: column; overflow: hidden; color: var(--vscode-foreground);
  background: var(--vscode-editor-background); font-family: var(--vscode-font-family); font-size: var(--vscode-font-size);
  container-type: inline-size;
  --edge: var(--vscode-contrastBorder, var(--vscode-panel-border, transparent)); --mark: color-mix(in srgb, var(--vscode-focusBorder) 75%, var(--vscode-editor-foreground)); }
[hidden] { display: none !important; }
.unseen { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); white-space: nowrap; }

.bar { display: flex; justify-content: space-between; align-items: center; gap: 0 12px; padding: 0 8px; border-bottom: 1px solid var(--edge); }
.sheets { display: flex; flex: 1 1 0; align-items: center; gap: 0 8px; min-width: 0; }
#tabs { display: flex; flex: none; }
.tools { display: flex; flex: none; align-items: center; gap: 2px; margin-left: auto; padding: 3px 0; }
.tools .rule { width: 1px; height: 16px; margin: 0 4px; background: var(--edge); }
button { font: inherit; color: inherit; background: transparent; border: 0; cursor: pointer; white-space: nowrap; }
button:focus-visible, select:focus-visible { outline: 1px solid var(--mark); outline-offset: -1px; }
button:disabled { opacity: 0.4; cursor: default; }
svg.icon { width: 16px; height: 16px; flex: none; fill: none; stroke: currentColor; stroke-width: 1.2; stroke-linecap: round; stroke-linejoin: round; }
.tool { display: inline-flex; align-items: center; gap: 5px; min-width: 22px; min-height: 22px; padding: 2px 4px; border-radius: 5px;
  max-width: 24em; overflow: hidden; }
.tool span { overflow: hidden; text-overflow: ellipsis; }
.tool:hover:not(:disabled) { background: var(--vscode-toolbar-hoverBackground); outline: 1px dashed var(--vscode-toolbar-hoverOutline, transparent); outline-offset: -1px; }
.tool:focus-visible { outline: 1px solid var(--mark); }
.tool.set { color: var(--vscode-inputOption-activeForeground, inherit); background: var(--vscode-inputOption-activeBackground);
  box-shadow: inset 0 0 0 1px var(--vscode-inputOption-activeBorder, transparent); }
@container (max-width: 860px) { .tool.brief > span { display: none; } }
@container (max-width: 600px) { .bar { flex-wrap: wrap; } .sheets { display: contents; } #tabs { flex: 0 1 auto; flex-wrap: wrap; }
  #pages { order: 1; flex-basis: 100%; padding-bottom: 4px; } }
[role="tab"] { padding: 7px 8px 6px; border-bottom: 2px solid transparent;
  color: var(--vscode-panelTitle-inactiveForeground, var(--vscode-foreground)); }
[role="tab"]:hover { color: var(--vscode-panelTitle-activeForeground, var(--vscode-foreground)); }
[role="tab"][aria-selected="true"] { color: var(--vscode-panelTitle-activeForeground, var(--vscode-foreground));
  border-bottom-color: var(--vscode-panelTitle-activeBorder, var(--mark)); }
#pages { display: flex; flex: 0 1 auto; align-items: center; min-width: 0; }
select { font: inherit; flex: 0 1 auto; min-width: 5em; max-width: 22em; height: 24px; padding: 0 4px; text-overflow: ellipsis;
  color: var(--vscode-dropdown-foreground); background: var(--vscode-dropdown-background);
  border: 1px solid var(--vscode-dropdown-border, var(--edge)); border-radius: 4px; }
option { color: var(--vscode-dropdown-foreground); background: var(--vscode-dropdown-listBackground, var(--vscode-dropdown-background)); }

p { margin: 0; padding: 4px 12px; }
#note { color: var(--vscode-inputValidation-warningForeground, var(--vscode-foreground)); background: var(--vscode-inputValidation-warningBackground);
  border-bottom: 1px solid var(--vscode-inputValidation-warningBorder, transparent); }
.foot { position: relative; display: flex; justify-content: space-between; border-top: 1px solid var(--edge); }
/* One line of it takes room; more of them lie over the sheet, which stays where it is. */
#said { flex: 1 1 0; position: relative; height: 1.4em; min-width: 0; }
#said span { position: absolute; inset: auto 0 0 0; padding: 4px 12px; overflow-wrap: anywhere; background: var(--vscode-editor-background);
  box-shadow: 0 -1px 0 var(--edge); }
#go { flex: 0 1 auto; min-width: 0; max-width: 60%; padding: 3px 12px; overflow: hidden; text-overflow: ellipsis; color: var(--vscode-textLink-foreground); }
#go:hover { text-decoration: underline; }

#progress { position: relative; height: 2px; margin-bottom: -2px; overflow: hidden; z-index: 1; }
#progress::after { content: ''; position: absolute; inset: 0 auto 0 0; width: 25%; background: var(--vscode-progressBar-background, var(--mark));
  opacity: 0; animation: pass 1.6s 0.8s linear infinite; }
@keyframes pass { from { opacity: 1; transform: translateX(-100%); } to { opacity: 1; transform: translateX(400%); } }
@media (prefers-reduced-motion: reduce) { #progress::after { width: 100%; opacity: 0.6; animation: none; } }

#stage { position: relative; flex: 1; min-height: 0; overflow: hidden; touch-action: none; cursor: grab;
  background: color-mix(in srgb, var(--vscode-editor-foreground) 7%, var(--vscode-editor-background)); }
.vscode-high-contrast #stage, #stage.bare { background: var(--vscode-editor-background); }
#stage:focus-visible { outline: 2px solid var(--mark); outline-offset: -2px; }
#stage > svg { position: absolute; left: 0; top: 0; outline: 1px solid var(--edge); }
#empty { position: absolute; inset: 0; display: flex; flex-direction: column; align-items: center; justify-content: center; gap: 6px;
  padding: 24px; text-align: center; cursor: default; color: var(--vscode-descriptionForeground, var(--vscode-foreground)); }
#empty strong { font-size: 1.15em; font-weight: 600; color: var(--vscode-foreground); }
#empty p { max-width: 40em; }

#stage [data-known] { cursor: pointer; }
#stage [data-known]:focus { outline: none; }
#stage [data-known]:hover > ${OUTLINE} { stroke: var(--mark); }
#stage .at > ${OUTLINE}, #stage [data-known]:focus > ${OUTLINE} { stroke: var(--mark); stroke-width: 1.2; }
#stage [data-known]:focus-visible > ${OUTLINE} { stroke-width: 1.8; }
#stage.reaching [data-kind="device"]:not(.lit, .blind, .unknown), #stage.reaching [data-kind="link"]:not(.lit),
#stage.reaching [data-kind="trunk"]:not(.lit) { opacity: 0.25; }
#stage .lit > rect:first-of-type { stroke-width: 0.9; }
#stage .lit > path:first-of-type { stroke-width: 1.2; }
#stage .blind > rect:first-of-type { stroke: var(--vscode-errorForeground); stroke-width: 1.2; stroke-dasharray: 3 1.5; }
#stage .unknown > rect:first-of-type { stroke: var(--vscode-editorWarning-foreground); stroke-width: 0.9; stroke-dasharray: 1 1.5; }
`;
