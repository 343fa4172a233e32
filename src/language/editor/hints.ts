/** Inlay hints: what is left out of a link and worked out, where it would have been written. */
import type { LangiumDocument, MaybePromise } from 'langium';
import type { InlayHintProvider } from 'langium/lsp';
import { InlayHintKind, type InlayHint, type InlayHintParams, type Position } from 'vscode-languageserver';
import type { CableRun } from '../../checks/analysis.js';
import { inUnit } from '../../vessel/units.js';
import type { Analyses } from '../analysis/analyses.js';
import * as ast from '../generated/ast.js';
import { headEnd } from '../lowering/places.js';
import { specOf } from '../naming/facts.js';
import { lengthText } from './hover/places.js';

export class WireloftInlayHintProvider implements InlayHintProvider {
  constructor(private readonly analyses: Analyses) {}

  getInlayHints(document: LangiumDocument, params: InlayHintParams): MaybePromise<InlayHint[] | undefined> {
    const found = this.analyses.of(document.uri.toString());
    if (!found) return undefined;
    const { analysis, places } = found;
    const cables = new Map(analysis.cables.map((cable) => [cable.link.origin, cable]));
    const hints: InlayHint[] = [];
    const wired = new Map(analysis.links.map((link) => [places.nodeOf(link.link.origin), link]));
    for (const statement of specOf(document).statements) {
      if (!ast.isLinkDecl(statement) || !inside(statement, params)) continue;
      const link = wired.get(statement);
      if (!link) continue;
      for (const [end, port] of [
        [statement.a, link.a?.port],
        [statement.b, link.b?.port],
      ] as const)
        if (end?.$cstNode && !end.port && port) hints.push(portHint(end.$cstNode.range.end, port.name));
      const cable = cables.get(link.link.origin);
      const at = headEnd(statement)?.range.end;
      const label = cable && lengthLabel(cable);
      if (cable && at && label !== undefined)
        hints.push({ position: at, label, paddingLeft: true, tooltip: lengthText(cable).join(' ') });
    }
    return hints;
  }
}

function inside(node: ast.LinkDecl, { range }: InlayHintParams): boolean {
  const own = node.$cstNode?.range;
  return own !== undefined && own.start.line <= range.end.line && own.end.line >= range.start.line;
}

const portHint = (position: Position, port: string): InlayHint => ({
  position,
  label: `.${port}`,
  kind: InlayHintKind.Parameter,
  tooltip: 'The port that fits. Write it to fix it.',
});

/** "8.5 m: 12 m stock", "8.5 m of a 9 m tail", "3.5 m"; undefined where nothing was worked out. */
function lengthLabel(cable: CableRun): string | undefined {
  if (cable.neededMetres === undefined) return undefined;
  const needed = inUnit(cable.neededMetres, 'm');
  if (cable.captiveMetres !== undefined) return `${needed} of a ${inUnit(cable.captiveMetres, 'm')} tail`;
  if (cable.pieces.length > 0)
    return `${needed}: ${cable.pieces.map((piece) => inUnit(piece, 'm')).join(' + ')} stock`;
  return cable.statedMetres === undefined ? needed : undefined;
}
