/** The page that shows a drawing, before its script runs. Nothing in it comes from the network, and nothing runs without the nonce. */
import { themeRules } from './colours.js';
import { STYLE } from './style.js';

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

/** Lines on a field of 16 by 16. */
const ICONS = {
  before: 'M10 3.5 5.5 8l4.5 4.5',
  after: 'M6 3.5 10.5 8 6 12.5',
  out: 'M3 8h10',
  in: 'M3 8h10M8 3v10',
  fit: 'M2.5 6V2.5H6M10 2.5h3.5V6M13.5 10v3.5H10M6 13.5H2.5V10',
  anew: 'M2.5 2.5h4v4h-4zM9.5 9.5h4v4h-4zM13.5 6.2A4.3 4.3 0 0 0 9 2.6M9 2.6l1.6-1.3M9 2.6l1.6 1.5M2.5 9.8A4.3 4.3 0 0 0 7 13.4M7 13.4l-1.6 1.3M7 13.4l-1.6-1.5',
  options: 'M2 4.5h6M12 4.5h2M2 11.5h2M8 11.5h6M8 2.8v3.4M4.6 9.8v3.4',
  export: 'M8 2v8M5 7l3 3 3-3M2.5 11v2.5h11V11',
} as const;

interface Tool {
  readonly id: keyof typeof ICONS;
  /** What it is called, and what it does where that is more. */
  readonly name: string;
  readonly title: string;
  /** Shown beside the icon where there is room. */
  readonly text?: string;
  readonly hidden?: true;
}

const tool = ({ id, name, title, text, hidden }: Tool): string =>
  `<button id="${id}" class="tool brief" type="button" aria-label="${name}" title="${title}"${hidden === true ? ' hidden' : ''}><svg class="icon" viewBox="0 0 16 16" aria-hidden="true"><path d="${ICONS[id]}"/></svg>${text === undefined ? '' : `<span>${text}</span>`}</button>`;

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
<div class="sheets">
<div id="tabs" role="tablist" aria-label="Kinds of sheets"></div>
<div id="pages" role="group" aria-label="Sheets of this kind" hidden>
${tool({ id: 'before', name: 'Sheet before', title: 'Sheet before (Page Up)' })}
<select id="page" aria-label="Sheet"></select>
${tool({ id: 'after', name: 'Next sheet', title: 'Next sheet (Page Down)' })}
</div>
</div>
<div class="tools" role="toolbar" aria-label="View">
${tool({ id: 'out', name: 'Zoom out', title: 'Zoom out (-)' })}
${tool({ id: 'in', name: 'Zoom in', title: 'Zoom in (+)' })}
${tool({ id: 'fit', name: 'Show the whole sheet', title: 'Show the whole sheet (0)' })}
<span class="rule" aria-hidden="true"></span>
${tool({ id: 'anew', name: 'Lay Out Anew', title: 'Lay Out Anew: forget where the boxes stand, and find the best places for all of them', text: 'Lay Out Anew' })}
${tool({ id: 'options', name: 'Options', title: 'Choose which options are drawn', text: 'Options', hidden: true })}
${tool({ id: 'export', name: 'Export', title: 'Write this sheet or the set as PDF, SVG or PNG', text: 'Export' })}
</div>
</div>
<p id="note" role="status" hidden></p>
<div id="progress" aria-hidden="true" hidden></div>
<main id="stage" class="sheet" tabindex="0" role="tabpanel" aria-label="Sheet" aria-describedby="keys" aria-busy="true"><div id="empty"><p>The boat is being drawn.</p></div></main>
<div class="foot">
<p id="said" role="status"><span></span></p>
<button id="go" type="button" hidden></button>
</div>
<p id="keys" class="unseen">Arrows move the sheet, plus and minus zoom, 0 shows the whole sheet, Page Up and Page Down turn to other sheets, N and P go from one element to the next, Enter goes to its line, G to the sheet on which a wire goes on.</p>
<script nonce="${nonce}" src="${escaped(script)}"></script>
</body>
</html>
`;
}
