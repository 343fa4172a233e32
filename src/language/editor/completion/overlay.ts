/** What an option makes of the boat, for a cursor inside it: what it removes and changes, and the ports that it gives away. */
import type { Analysis } from '../../../checks/analysis.js';
import type { End } from '../../../vessel/model.js';
import * as ast from '../../generated/ast.js';
import type { UsesOf } from './uses.js';

export interface Overlay {
  /** Devices that it takes out whole. */
  readonly removed: ReadonlySet<string>;
  /** The model that a device has instead. */
  readonly changed: ReadonlyMap<string, ast.ModelDecl>;
  /** Origins of the links and feeds that go. */
  readonly freed: (analysis: Analysis) => ReadonlySet<string>;
  /** Ports that its own links and feeds name. */
  readonly added: UsesOf;
}

/** Reads the edits of an option but for the one at the cursor. */
export function overlayOf(option: ast.OptionDecl, cursor: number): Overlay {
  const edits = option.edits.filter((edit) => !holds(edit, cursor));
  const removals = edits.filter(ast.isRemoveEdit);
  const removed = new Set(
    removals.flatMap(({ a, b }) => (b === undefined ? (a?.device?.$refText ?? []) : [])),
  );
  const parted = removals.flatMap(({ a, b }) => (a && b ? [[a, b] as const] : []));
  const changed = new Map(
    edits
      .filter(ast.isChangeEdit)
      .flatMap(({ device, model }) => (device?.$refText && model?.ref ? [[device.$refText, model.ref]] : [])),
  );
  const isGone = ({ device }: End): boolean => device !== undefined && removed.has(device);
  return {
    removed,
    changed,
    freed: ({ links, feeds }) =>
      new Set([
        ...links
          .filter(({ link: { a, b } }) => isGone(a) || isGone(b) || parted.some((pair) => joins(pair, a, b)))
          .map(({ link }) => link.origin),
        ...feeds
          .filter(({ feed }) => isGone(feed.from) || feed.to.every(isGone))
          .map(({ feed }) => feed.origin),
      ]),
    added: (device, port) =>
      edits.some((edit) => endsOf(edit).some((end) => names(end, device, port)))
        ? [{ what: `option ${option.name}`, spot: { origin: `option ${option.name}` } }]
        : [],
  };
}

const holds = (edit: ast.Edit, offset: number): boolean =>
  edit.$cstNode !== undefined && edit.$cstNode.offset <= offset && offset <= edit.$cstNode.end;

/** Whether a removal means the link between two ends, whichever is written first. */
function joins([x, y]: readonly [ast.End, ast.End], a: End, b: End): boolean {
  return (means(x, a) && means(y, b)) || (means(x, b) && means(y, a));
}

const means = (written: ast.End, end: End): boolean =>
  written.device?.$refText === end.device &&
  (written.port === undefined || end.port === undefined || written.port.$refText === end.port);

function endsOf(edit: ast.Edit): readonly ast.End[] {
  const declaration = ast.isAddEdit(edit) ? edit.declaration : undefined;
  if (ast.isLinkDecl(declaration)) return [declaration.a, declaration.b].filter((end) => end !== undefined);
  if (ast.isFeedDecl(declaration))
    return [declaration.from, ...declaration.to].filter((end) => end !== undefined);
  return [];
}

const names = (end: ast.End, device: string, port: string): boolean =>
  end.device?.$refText === device && end.port?.$refText === port;
